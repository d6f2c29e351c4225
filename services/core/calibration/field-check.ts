/**
 * A travelling reference laid beside a buried probe for a day: does the probe still read within what is asked of it?
 *
 * The rule: d is the mean of probe less reference and U its expanded uncertainty. Within the bound for certain
 * (|d| + U <= bound) they agree; beyond it for certain (|d| - U > bound) they disagree; else it is undecided: a
 * decision rule with a guard band of U on both sides [JCGM 106 8.3, from memory]. Beside it stands the E_n number of
 * ISO/IEC 17043, d / U, of at most 1 where the two instruments do not contradict their own uncertainties: a probe may
 * keep the bound and contradict its uncertainty, or the other way round.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import { type FieldPair, type FieldSample, pairsOf, requireSeries } from './field-pairs.js';
import { meanOfSeries } from './mean-of-series.js';
import { studentScore } from './student.js';

export interface FieldCheckOptions {
  /** Unit of the values, for the sentence. */
  readonly unit: string;
  /** What the probe may be off, unit, above 0. */
  readonly bound: number;
  /**
   * k = 1, unit: that the two do not lie in the same spot of sand. Nothing is assumed for it: 0.1 °C for each 5 cm is
   * usual close under the top of a bed (judgement).
   */
  readonly placeUncertainty: number;
  /** ms that readings of the reference may be apart for one of the probe between them; half an hour. */
  readonly gapMost_ms?: number;
}

export type FieldVerdict = 'agrees' | 'disagrees' | 'undecided';

export interface FieldCheck {
  readonly verdict: FieldVerdict;
  readonly sentence: string;
  readonly pairs: number;
  readonly from: number;
  readonly to: number;
  /** Mean of probe less reference. */
  readonly difference: number;
  /** k = 1, of that mean. */
  readonly standardUncertainty: number;
  /** 95 %: at least twice the standard one. */
  readonly expandedUncertainty: number;
  readonly coverageFactor: number;
  /** ISO/IEC 17043, with its sign. */
  readonly enNumber: number;
  /** Standard deviation of single differences. */
  readonly scatter: number;
  /** How many independent differences the pairs are worth. */
  readonly independent: number;
  /** k = 1. The first falls with more pairs, the others do not. */
  readonly contributions: {
    readonly scatter: number;
    readonly probe: number;
    readonly reference: number;
    readonly place: number;
  };
}

/** A day's swing and its return, and enough pairs to see how alike neighbours are. Judgement. */
const PAIRS_LEAST = 24;
const HOURS_LEAST = 12;
const HOUR_ms = 3_600_000;
const GAP_MOST_ms = HOUR_ms / 2;

/** The usual factor; a larger one where the scatter rests on few independent pairs. */
const FACTOR_LEAST = 2;
/** Beyond, Student's factor is below 2 anyway. */
const FREEDOM_MOST = 1000;

/**
 * Compares a buried probe with a travelling reference.
 *
 * The calibrations of the two count in full, however many pairs there are, and as independent of each other: a probe
 * that was calibrated against this very reference shares its error, and the check cannot see that.
 *
 * @param probe corrected values, in order of time
 * @param reference likewise, of the travelling instrument
 * @throws SandlarderError TOO_FEW_SAMPLES below 24 pairs or 12 hours; BAD_REQUEST for readings out of order;
 * LIMIT_EXCEEDED; OUT_OF_DOMAIN
 */
export function fieldCheck(
  probe: readonly FieldSample[],
  reference: readonly FieldSample[],
  options: FieldCheckOptions,
): FieldCheck {
  const { unit, bound, placeUncertainty, gapMost_ms = GAP_MOST_ms } = options;
  requireInDomain(`what the probe may be off, ${unit},`, bound, Number.MIN_VALUE, 100);
  requireInDomain(`uncertainty of the place, ${unit},`, placeUncertainty, 0, 50);
  requireInDomain('gap between readings of the reference, ms,', gapMost_ms, 1, 6 * HOUR_ms);
  requireSeries('probe', probe);
  requireSeries('reference', reference);
  const pairs = pairsOf(probe, reference, gapMost_ms);
  const { from, to } = requireLongEnough(pairs);
  const series = meanOfSeries(pairs.map(({ difference }) => difference));
  const contributions = {
    scatter: series.standardUncertainty,
    probe: rootMeanSquare(pairs.map(({ probeUncertainty }) => probeUncertainty)),
    reference: rootMeanSquare(pairs.map(({ referenceUncertainty }) => referenceUncertainty)),
    place: placeUncertainty,
  };
  const standardUncertainty = Math.hypot(...Object.values(contributions));
  const coverageFactor = factorFor(contributions.scatter, series.independent, standardUncertainty);
  const expandedUncertainty = coverageFactor * standardUncertainty;
  const verdict = verdictOf(Math.abs(series.mean), expandedUncertainty, bound);
  return {
    verdict,
    sentence: sentenceOf(verdict, series.mean, expandedUncertainty, options),
    pairs: pairs.length,
    from,
    to,
    difference: series.mean,
    standardUncertainty,
    expandedUncertainty,
    coverageFactor,
    enNumber: series.mean / expandedUncertainty,
    scatter: series.scatter,
    independent: series.independent,
    contributions,
  };
}

function requireLongEnough(pairs: readonly FieldPair[]): { from: number; to: number } {
  const from = pairs[0]?.time ?? 0;
  const to = pairs.at(-1)?.time ?? 0;
  const hours = (to - from) / HOUR_ms;
  if (!(pairs.length >= PAIRS_LEAST))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `field check: expected at least ${PAIRS_LEAST} readings of the probe between readings of the reference, got ${pairs.length}`,
    );
  if (!(hours >= HOURS_LEAST))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `field check: expected at least ${HOURS_LEAST} h side by side, got ${hours.toFixed(1)} h`,
    );
  return { from, to };
}

const rootMeanSquare = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length);

/** Welch and Satterthwaite [JCGM 100 G.4.1]; all but the scatter counts as known for certain. */
function factorFor(scatter: number, independent: number, standardUncertainty: number): number {
  const freedom = Math.max(1, independent - 1) * (standardUncertainty / scatter) ** 4;
  return freedom < FREEDOM_MOST ? Math.max(FACTOR_LEAST, studentScore(0.025, freedom)) : FACTOR_LEAST;
}

function verdictOf(size: number, expanded: number, bound: number): FieldVerdict {
  if (size + expanded <= bound) return 'agrees';
  return size - expanded > bound ? 'disagrees' : 'undecided';
}

const VERDICTS: Readonly<Record<FieldVerdict, string>> = {
  agrees: 'it is within',
  disagrees: 'it is beyond',
  undecided: 'it cannot be told whether it is within',
};

const NEXT: Readonly<Record<FieldVerdict, string>> = {
  agrees: 'The probe can stay.',
  disagrees: 'Calibrate or replace the probe.',
  undecided: 'Use a better reference, lay it closer, or calibrate the probe again.',
};

function sentenceOf(
  verdict: FieldVerdict,
  difference: number,
  expanded: number,
  { unit, bound }: FieldCheckOptions,
): string {
  const way = difference < 0 ? 'lower' : 'higher';
  const odds =
    Math.abs(difference) > expanded ? ' The two differ by more than their uncertainties explain.' : '';
  return (
    `The probe reads ${Math.abs(difference).toFixed(2)} ${unit} ${way} than the reference, ± ` +
    `${expanded.toFixed(2)} ${unit} (95 %): ${VERDICTS[verdict]} the ${bound} ${unit} asked for.${odds} ${NEXT[verdict]}`
  );
}
