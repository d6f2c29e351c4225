/** What a trial has come to by now: its table, the comparison of its beds, and what its roots came to. */
import { SandlarderError } from '../errors.js';
import { survivalOf } from '../keeping/index.js';
import { DAY_ms } from '../model/time.js';
import type { Trial } from '../model/trial.js';
import { compare } from './compare.js';
import type { Comparison } from './comparison.js';
import { type BedMaterial, type BedOutcome, outcomeOf } from './outcome.js';
import { type BedValue, perBed } from './per-bed.js';
import type { RootsSeen } from './roots-seen.js';
import { compareSurvival, type SurvivalComparison } from './survival.js';
import { survivalWords } from './survival-words.js';
import { type ComparisonWords, comparisonWords } from './words.js';

export interface TrialRow {
  readonly bed: string;
  readonly treatment: string;
  readonly block: string | null;
  readonly value: number | null;
  /** Of the look, or the last day that counts; days from the filling. */
  readonly day: number | null;
  /** Of days until something: whether it came to that, or was not yet so. */
  readonly reached: boolean | null;
  /** Why there is no value. */
  readonly missing: string | null;
}

export interface TrialResult {
  readonly rows: readonly TrialRow[];
  /** By one number a bed; null with the reason where it cannot be done, and for days until something. */
  readonly comparison: Comparison | null;
  /** Of days until something by bed, else of roots over the looks; null with the reason where it cannot be done. */
  readonly survival: SurvivalComparison | null;
  readonly words: ComparisonWords | null;
  readonly survivalWords: ComparisonWords | null;
  /** What could not be done, in sentences. */
  readonly missing: readonly string[];
}

/**
 * @param materials of its beds as far as they were filled
 * @throws SandlarderError CONFLICT for a trial without treatments
 */
export function trialResult(trial: Trial, materials: readonly BedMaterial[]): TrialResult {
  if (trial.assigned === null)
    throw new SandlarderError(
      'CONFLICT',
      `trial "${trial.trial}": expected treatments drawn or given, got none: draw them first`,
    );
  const rows = rowsOf(trial, materials);
  const missing: string[] = [];
  const attempt = <Found>(what: string, make: () => Found): Found | null => {
    try {
      return make();
    } catch (error) {
      if (!(error instanceof SandlarderError)) throw error;
      // Many errors begin with what they are about.
      const { message } = error;
      missing.push(message.startsWith(`${what}: `) ? message : `${what}: ${message}`);
      return null;
    }
  };
  const byDays = trial.outcome.kind === 'first-rot';
  const comparison = byDays
    ? null
    : attempt('beds', () => compare(trial.design === 'blocks' ? 'blocks' : 'welch', perBed(valuesOf(rows))));
  const survival = attempt(byDays ? 'beds' : 'roots', () =>
    compareSurvival(byDays ? daysOf(rows) : rootsOfTrial(trial, materials)),
  );
  return {
    ...{ rows, comparison, survival, missing },
    words: comparison && comparisonWords(comparison),
    survivalWords: survival && survivalWords(survival),
  };
}

function rowsOf(trial: Trial, materials: readonly BedMaterial[]): TrialRow[] {
  return trial.beds.map(({ bed, treatment = '', block = null }) => {
    const material = materials.find((one) => one.bed === bed);
    const outcome: BedOutcome = material
      ? outcomeOf(trial.outcome, material)
      : { bed, missing: 'expected it filled within the trial, got no filling' };
    if ('missing' in outcome)
      return { bed, treatment, block, value: null, day: null, reached: null, missing: outcome.missing };
    const { value, day, reached } = outcome;
    return { bed, treatment, block, value, day, reached, missing: null };
  });
}

const valuesOf = (rows: readonly TrialRow[]): BedValue[] =>
  rows.flatMap(({ bed, treatment, block, value }) =>
    value === null ? [] : [{ bed, treatment, value, ...(block !== null && { block }) }],
  );

const daysOf = (rows: readonly TrialRow[]): RootsSeen[] =>
  rows.flatMap(({ bed, treatment, block, value, reached }) =>
    value === null
      ? []
      : [{ bed, treatment, time: value, lost: reached === true, roots: 1, ...(block !== null && { block }) }],
  );

/**
 * Roots of each bed by its looks. A look sees some of the roots, so that shares are carried over to as many roots as the
 * fewest that were looked at: no bed is taken to be known better than that.
 */
export function rootsOfTrial(trial: Trial, materials: readonly BedMaterial[]): RootsSeen[] {
  return trial.beds.flatMap(({ bed, treatment = '', block }) => {
    const material = materials.find((one) => one.bed === bed);
    if (!material) return [];
    const { filledAt, looks } = material;
    const until = looks.filter(({ at }) => at <= filledAt + (trial.outcome.day + 7) * DAY_ms);
    const steps = survivalOf(filledAt, until);
    const roots = Math.min(...until.map(({ looked }) => looked));
    const common = { bed, treatment, ...(block !== undefined && { block }) };
    let left = 1;
    const seen: RootsSeen[] = [];
    for (const { time, survival } of steps) {
      const lost = (left - survival) * roots;
      if (lost > 0) seen.push({ ...common, time: Math.round(time), lost: true, roots: lost });
      left = Math.min(left, survival);
    }
    const last = steps.at(-1);
    if (last && left > 0)
      seen.push({ ...common, time: Math.round(last.time), lost: false, roots: left * roots });
    return seen;
  });
}
