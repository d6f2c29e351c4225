/** English: what every other language is written from. One file an area. */
import { access } from './access.js';
import { alarm } from './alarm.js';
import { app } from './app.js';
import { bed } from './bed.js';
import { beds } from './beds.js';
import { bench } from './bench.js';
import { device } from './device.js';
import { evidence } from './evidence.js';
import { fill } from './fill.js';
import { inspect } from './inspect.js';
import { outlook } from './outlook.js';
import { parts } from './parts.js';
import { planning } from './planning.js';
import { ready } from './ready.js';
import { roles } from './roles.js';
import { sand } from './sand.js';
import { raised, season, verdicts } from './season.js';
import { series } from './series.js';
import { settings } from './settings.js';
import { causes, reasons, stock } from './stock.js';
import { toldRules } from './told-rules.js';
import { toldSteps } from './told-steps.js';
import { trialForms } from './trial-forms.js';
import { outcomes, trials } from './trials.js';
import { work } from './work.js';

export const catalogue = {
  access,
  alarm,
  app,
  bed,
  bench,
  causes,
  evidence,
  fill,
  inspect,
  outcomes,
  outlook,
  beds,
  device,
  parts,
  raised,
  reasons,
  season,
  series,
  stock,
  toldRules,
  toldSteps,
  trialForms,
  trials,
  verdicts,
  planning,
  ready,
  roles,
  sand,
  settings,
  work,
} as const;
