/** What the watch over warmth is given and what it answers. */
import type { Fault, OnsetSaved } from './bank.js';
import type { ExpectedSaved } from './expected.js';
import type { GatheringSaved } from './gathering.js';
import type { LikelySaved } from './likely.js';
import type { Located } from './locate.js';
import type { OpenSourcesSaved } from './open-sources.js';
import type { ScatterSaved } from './scatter.js';
import type { SuspicionSaved } from './suspicion.js';

export interface HeatHour {
  /** Start, ms. */
  readonly hour: number;
  /** By probe, in the order of the points: mean of the hour, °C. */
  readonly means: readonly (number | undefined)[];
  /** By probe: whether it is known to be broken. */
  readonly broken: readonly boolean[];
  readonly shade_C: number | undefined;
  /** Somebody said that the bed was opened in this hour. */
  readonly opened: boolean;
  /** They found rot and left it in the bed: what is told of goes on. */
  readonly rotLeft: boolean;
  /** Evidence of warmth is not to be believed now: water came in. */
  readonly wet: boolean;
}

export interface Source extends Omit<Located, 'reading' | 'onset'> {
  readonly action: 'unpack' | 'check';
  /** Which of the bed's sources that are told at once, from 0 on. */
  readonly slot: number;
  /** End of the step in which it was established, ms. */
  readonly since: number;
  /** Step in which it began. */
  readonly onsetStep: number;
  readonly nearest: number;
  /** Probes that show it: where it adds at least a quarter of what it adds at the nearest. */
  readonly probes: number;
}

export interface ProbeFinding {
  readonly probe: number;
  readonly fault: Fault;
  /** °C a day of a drift, °C of a step. */
  readonly size: number;
  readonly since: number;
}

export interface ProbeExpectation {
  readonly expected_C: number;
  readonly band_C: number;
}

export interface HeatSaved {
  readonly step: number | null;
  readonly begun: number | null;
  readonly restFrom: number;
  readonly wetUntil: number;
  readonly scatter: ScatterSaved;
  /** What it took to be likely in the last step. */
  readonly likely: LikelySaved | null;
  readonly lastRatio: number;
  readonly asked: number | null;
  readonly expectations: readonly (ProbeExpectation | null)[];
  readonly gathering: GatheringSaved;
  readonly suspicion: SuspicionSaved;
  readonly sources: OpenSourcesSaved;
  readonly expected: ExpectedSaved | null;
  readonly onsets: readonly OnsetSaved[];
}
