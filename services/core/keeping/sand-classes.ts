/**
 * Two names for one sand, and they disagree: medium sand is 0.25 to 0.5 mm for Wentworth and 0.425 to 2 mm for the
 * Unified Soil Classification System.
 *
 * Sources: ASTM D2487 for sands and gravels (limits of fines, Cu and Cc from memory; dual symbols seen); Udden-Wentworth
 * scale (sands seen in several tables, the rest from memory). Whether fines are silt or clay is told by Atterberg
 * limits, which no sieve gives: both symbols are returned.
 */
import type { GrainSize, Grains, PercentRange } from './sand-grains.js';

/** % by mass: below, fines do not count; above, they alone name the sand. Both ends take the dual symbol. D2487. */
const DUAL_FROM_percent = 5;
const DUAL_TO_percent = 12;
/** From here on it is no sand. D2487. */
const FINE_GRAINED_FROM_percent = 50;

/** Least Cu of a well graded soil; Cc of it lies from 1 to 3. D2487. */
const LEAST_UNIFORMITY = { G: 4, S: 6 } as const;

type Kind = 'G' | 'S';

export interface UnifiedClass {
  /** Every symbol that fits what is known, such as `SP-SM`, `SP-SC`. */
  readonly symbols: readonly string[];
  /** Why more than one, or none of a sand; empty where there is one. */
  readonly remark: string;
}

/** Symbols of the Unified Soil Classification System. */
export function unifiedClassOf(grains: Grains): UnifiedClass {
  const { fines } = grains;
  const kinds = kindsOf(grains);
  const gradings = (kind: Kind): string[] => gradingsOf(kind, grains).map((grading) => `${kind}${grading}`);
  const clean = fines.low < DUAL_FROM_percent ? kinds.flatMap(gradings) : [];
  const dual =
    fines.high >= DUAL_FROM_percent && fines.low <= DUAL_TO_percent
      ? kinds.flatMap((kind) => gradings(kind).flatMap((name) => [`${name}-${kind}M`, `${name}-${kind}C`]))
      : [];
  const dirty =
    fines.high > DUAL_TO_percent && fines.low < FINE_GRAINED_FROM_percent
      ? kinds.flatMap((kind) => [`${kind}M`, `${kind}C`, `${kind}C-${kind}M`])
      : [];
  return { symbols: [...clean, ...dual, ...dirty], remark: remarkOf(grains) };
}

/** Gravel where more than half of what is no fines is coarser than 4.75 mm. */
function kindsOf({ fines, gravel }: Grains): Kind[] {
  const kinds: Kind[] = [];
  if (gravel.low <= (100 - fines.low) / 2) kinds.push('S');
  if (gravel.high > (100 - fines.high) / 2) kinds.push('G');
  return kinds;
}

/** Well (W) or poorly (P) graded; both where Cu or Cc is not known. */
function gradingsOf(kind: Kind, { uniformity, curvature }: Grains): ('W' | 'P')[] {
  if (uniformity === undefined || curvature === undefined) return ['W', 'P'];
  return [uniformity >= LEAST_UNIFORMITY[kind] && curvature >= 1 && curvature <= 3 ? 'W' : 'P'];
}

function remarkOf({ fines, uniformity, curvature }: Grains): string {
  const remarks: string[] = [];
  if (fines.high >= FINE_GRAINED_FROM_percent)
    remarks.push(
      `${fines.low >= FINE_GRAINED_FROM_percent ? 'this is' : 'this may be'} silt or clay, not sand: half of it or more is finer than 0.075 mm`,
    );
  if (fines.high >= DUAL_FROM_percent)
    remarks.push('whether its fines are silt (M) or clay (C) a sieve cannot tell');
  if (!isOne(fines)) remarks.push('the share of fines is not known: no sieve is as fine as 0.075 mm');
  if (fines.low <= DUAL_TO_percent && (uniformity === undefined || curvature === undefined))
    remarks.push('well (W) or poorly (P) graded is not known: D10, D30 or D60 lies beyond the sieves');
  return remarks.join('; ');
}

const isOne = ({ low, high }: PercentRange): boolean => low === high;

/** Names by the size from which each begins, mm, the largest first. */
const WENTWORTH = [
  [256, 'boulders'],
  [64, 'cobbles'],
  [4, 'pebbles'],
  [2, 'granules'],
  [1, 'very coarse sand'],
  [0.5, 'coarse sand'],
  [0.25, 'medium sand'],
  [0.125, 'fine sand'],
  [0.0625, 'very fine sand'],
  [0.0039, 'silt'],
  [0, 'clay'],
] as const;

export type WentworthName = (typeof WENTWORTH)[number][1];

/** Udden-Wentworth class of the median; undefined where the median lies beyond the sieves. */
export function wentworthClassOf(median: GrainSize): WentworthName | undefined {
  if (median.is !== 'known') return undefined;
  return WENTWORTH.find(([from_mm]) => median.mm >= from_mm)?.[1];
}
