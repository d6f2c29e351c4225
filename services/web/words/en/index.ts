/** English: what every other language is written from. One file an area. */
import { alarm } from './alarm.js';
import { app } from './app.js';
import { bed } from './bed.js';
import { beds } from './beds.js';
import { bench } from './bench.js';
import { fill } from './fill.js';
import { device } from './device.js';
import { inspect } from './inspect.js';
import { outlook } from './outlook.js';
import { parts } from './parts.js';
import { planning } from './planning.js';
import { ready } from './ready.js';
import { sand } from './sand.js';
import { series } from './series.js';
import { work } from './work.js';

export const catalogue = {
  alarm,
  app,
  bed,
  bench,
  fill,
  inspect,
  outlook,
  beds,
  device,
  parts,
  planning,
  ready,
  sand,
  series,
  work,
} as const;
