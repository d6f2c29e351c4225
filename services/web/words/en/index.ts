/** English: what every other language is written from. One file an area. */
import { alarm } from './alarm.js';
import { app } from './app.js';
import { bed } from './bed.js';
import { bench } from './bench.js';
import { inspect } from './inspect.js';
import { parts } from './parts.js';
import { series } from './series.js';
import { work } from './work.js';

export const catalogue = {
  alarm,
  app,
  bed,
  bench,
  inspect,
  parts,
  series,
  work,
} as const;
