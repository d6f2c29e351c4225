/**
 * Swahili. Draft: no native speaker has read it. A word that is not here yet is said in English, so that a new one of
 * English can come first; tests/web/words.test.ts compares the words.
 */
import type { Catalogue } from '../catalogue.js';
import { catalogue as english } from '../en/index.js';
import { alarm } from './alarm.js';
import { app } from './app.js';
import { bed } from './bed.js';
import { beds } from './beds.js';
import { device } from './device.js';
import { inspect } from './inspect.js';
import { parts } from './parts.js';
import { work } from './work.js';

export const catalogue = {
  ...english,
  alarm: { ...english.alarm, ...alarm },
  app: { ...english.app, ...app },
  bed: { ...english.bed, ...bed },
  beds: { ...english.beds, ...beds },
  device: { ...english.device, ...device },
  inspect: { ...english.inspect, ...inspect },
  parts: { ...english.parts, ...parts },
  work: { ...english.work, ...work },
} as const satisfies Catalogue;
