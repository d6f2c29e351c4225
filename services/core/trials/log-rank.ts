/**
 * Whether treatments lose roots alike: log-rank test (N. Mantel, Cancer Chemother. Rep. 50 (1966) 163-170; R. Peto & J. Peto,
 * J. R. Stat. Soc. A 135 (1972) 185-207; titles from memory), ties by the hypergeometric variance.
 */
import { SandlarderError } from '../errors.js';
import { solveLinear } from '../watch/sequential/linear-system.js';
import { chiSquareP } from './distributions.js';
import { sumOf } from './moments.js';
import { atRisk, lossTimes, lostAtTime, type RootsSeen } from './roots-seen.js';

export interface LogRank {
  readonly treatments: readonly {
    readonly treatment: string;
    readonly lost: number;
    readonly expected: number;
  }[];
  readonly chiSquare: number;
  readonly df: number;
  readonly p: number;
  /** Of the first treatment's losses. */
  readonly variance: number;
}

/** @throws SandlarderError TOO_FEW_SAMPLES for fewer than two treatments, or where nothing was lost */
export function logRank(seen: readonly RootsSeen[]): LogRank {
  const names = [...new Set(seen.map(({ treatment }) => treatment))];
  if (!(names.length >= 2))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `treatments: expected two or more to compare, got ${names.length}`,
    );
  const groups = names.map((name) => seen.filter(({ treatment }) => treatment === name));
  const times = lossTimes(seen);
  const k = names.length;
  const expected = names.map(() => 0);
  const covariance = names.map(() => names.map(() => 0));
  for (const time of times) {
    const [all, lost] = [atRisk(seen, time), lostAtTime(seen, time)];
    const shares = groups.map((group) => atRisk(group, time) / all);
    const spread = all > 1 ? (lost * (all - lost)) / (all - 1) : 0;
    shares.forEach((share, row) => {
      expected[row] = (expected[row] as number) + lost * share;
      const line = covariance[row] as number[];
      shares.forEach((other, column) => {
        line[column] = (line[column] as number) + spread * share * ((row === column ? 1 : 0) - other);
      });
    });
  }
  const lost = groups.map((group) => sumOf(times.map((time) => lostAtTime(group, time))));
  const variance = covariance[0]?.[0] as number;
  if (!(variance > 0))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      'roots: expected losses while roots of two treatments were left, got none',
    );
  const chiSquare = quadratic(
    covariance,
    lost.map((value, at) => value - (expected[at] as number)),
  );
  return {
    treatments: names.map((treatment, at) => ({
      ...{ treatment, lost: lost[at] as number, expected: expected[at] as number },
    })),
    ...{ chiSquare, df: k - 1, p: chiSquareP(chiSquare, k - 1), variance },
  };
}

/** u' V^-1 u without the last treatment, which follows from the others. */
function quadratic(covariance: readonly (readonly number[])[], excess: readonly number[]): number {
  const size = excess.length - 1;
  const short = excess.slice(0, size);
  const matrix = Float64Array.from(covariance.slice(0, size).flatMap((row) => row.slice(0, size)));
  const solved = solveLinear(matrix, Float64Array.from(short));
  return sumOf(short.map((value, at) => value * (solved[at] as number)));
}

/**
 * Losses of each bed beyond what it would have had, had all beds lost roots alike: they add up to the log-rank excess of its
 * treatment, and do not depend on which bed had which.
 */
export function bedExcess(seen: readonly RootsSeen[]): Map<string, number> {
  const rates = lossTimes(seen).map((time) => ({ time, rate: lostAtTime(seen, time) / atRisk(seen, time) }));
  const excess = new Map<string, number>();
  for (const { bed, time, lost, roots } of seen) {
    const exposed = sumOf(rates.filter((rate) => rate.time <= time).map(({ rate }) => rate));
    excess.set(bed, (excess.get(bed) ?? 0) + roots * ((lost ? 1 : 0) - exposed));
  }
  return excess;
}
