/** English: what every other language is written from. One file an area. */
import { app } from './app.js';
import { bed } from './bed.js';
import { parts } from './parts.js';
import { work } from './work.js';

export const catalogue = {
  app,
  bed,
  parts,
  work,
} as const;
