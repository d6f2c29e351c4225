/** Swahili. Draft: no native speaker has read it. */
import { overEnglish } from '../over-english.js';
import { alarm } from './alarm.js';
import { app } from './app.js';
import { bed } from './bed.js';
import { beds } from './beds.js';
import { device } from './device.js';
import { inspect } from './inspect.js';
import { parts } from './parts.js';
import { work } from './work.js';

export const catalogue = overEnglish({
  alarm,
  app,
  bed,
  beds,
  device,
  inspect,
  parts,
  work,
});
