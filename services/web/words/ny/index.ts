/** Draft: no native speaker has read it. Chichewa. What is not here yet is said in English: a test compares the words. */
import type { Catalogue } from '../catalogue.js';
import { catalogue as english } from '../en/index.js';
import { alarm } from './alarm.js';
import { app } from './app.js';
import { bed } from './bed.js';
import { beds } from './beds.js';
import { bench } from './bench.js';
import { device } from './device.js';
import { fill } from './fill.js';
import { inspect } from './inspect.js';
import { outlook } from './outlook.js';
import { parts } from './parts.js';
import { planning } from './planning.js';
import { ready } from './ready.js';
import { sand } from './sand.js';
import { raised, season, verdicts } from './season.js';
import { series } from './series.js';
import { settings } from './settings.js';
import { causes, reasons, stock } from './stock.js';
import { work } from './work.js';

export const catalogue = {
  ...english,
  alarm: { ...english.alarm, ...alarm },
  app: { ...english.app, ...app },
  bed: { ...english.bed, ...bed },
  beds: { ...english.beds, ...beds },
  bench: { ...english.bench, ...bench },
  causes: { ...english.causes, ...causes },
  device: { ...english.device, ...device },
  fill: { ...english.fill, ...fill },
  inspect: { ...english.inspect, ...inspect },
  outlook: { ...english.outlook, ...outlook },
  parts: { ...english.parts, ...parts },
  planning: { ...english.planning, ...planning },
  raised: { ...english.raised, ...raised },
  ready: { ...english.ready, ...ready },
  reasons: { ...english.reasons, ...reasons },
  sand: { ...english.sand, ...sand },
  season: { ...english.season, ...season },
  series: { ...english.series, ...series },
  settings: { ...english.settings, ...settings },
  stock: { ...english.stock, ...stock },
  verdicts: { ...english.verdicts, ...verdicts },
  work: { ...english.work, ...work },
} as const satisfies Catalogue;
