/** What is asked of the watch, beside what it came to. */
import { shareOf } from './middle.js';
import type { Totals } from './totals.js';

export type Unit = 'share' | 'h' | 'cm' | 'number' | 'in 100 months';

export interface Criterion {
  readonly name: string;
  readonly asked: { readonly atLeast: number } | { readonly atMost: number };
  readonly unit: Unit;
  /** Null where nothing was there to tell; endless, which JSON writes as null, where something was never told. */
  readonly came: number | null;
  /** The same without leaving anything out, where something is left out. */
  readonly inAll?: number | null;
  readonly met: boolean | null;
}

type Asked = Omit<Criterion, 'met'>;

const foundShare = ({ found, rots }: { found: number; rots: number }): number | null => shareOf(found, rots);

/** Hours are asked of all that there was, so one that was never told is later than any. */
const slowest = (told: number, all: number, slowest_h: number | null): number | null =>
  told < all ? Number.POSITIVE_INFINITY : slowest_h;

const sources = ({ near, far }: Totals): Asked[] => [
  {
    ...{ name: '1.5 W or more within 30 cm (a): found', asked: { atLeast: 0.95 }, unit: 'share' },
    ...{ came: foundShare(near.counted), inAll: foundShare(near.all) },
  },
  {
    ...{ name: '  (a): median after 0.5 C at the probe', asked: { atMost: 12 }, unit: 'h' },
    ...{ came: near.counted.fromKnowable_h, inAll: near.all.fromKnowable_h },
  },
  {
    ...{ name: 'the same 30 to 50 cm away (a): found', asked: { atLeast: 0.75 }, unit: 'share' },
    ...{ came: foundShare(far.counted), inAll: foundShare(far.all) },
  },
];

const falseCalls = (t: Totals): Asked[] => [
  {
    ...{ name: 'false "unpack" in 100 sound bed-months', asked: { atMost: 1 }, unit: 'in 100 months' },
    came: t.soundMonths > 0 ? t.falseUnpack_per_100_months : null,
  },
  {
    ...{ name: '  beside a fault of a probe', asked: { atMost: 0 }, unit: 'number' },
    came: t.faults > 0 ? t.unpackInFault : null,
  },
];

const places = ({ place: { counted, all } }: Totals): Asked[] => [
  {
    ...{ name: 'place at the alarm (b): median off', asked: { atMost: 18 }, unit: 'cm' },
    ...{ came: counted.first.error_cm, inAll: all.first.error_cm },
  },
  {
    ...{ name: '  (b): inside its radius', asked: { atLeast: 0.9 }, unit: 'share' },
    ...{ came: counted.first.covered, inAll: all.first.covered },
  },
  {
    ...{ name: 'place four days later (b): median off', asked: { atMost: 12 }, unit: 'cm' },
    ...{ came: counted.later.error_cm, inAll: all.later.error_cm },
  },
  {
    ...{ name: '  (b): inside its radius', asked: { atLeast: 0.9 }, unit: 'share' },
    ...{ came: counted.later.covered, inAll: all.later.covered },
  },
];

const others = (t: Totals): Asked[] => [
  {
    ...{ name: 'wet front: slowest after reaching a probe', asked: { atMost: 2 }, unit: 'h' },
    came: slowest(t.wettingsTold, t.wettings, t.slowestWetting_h),
  },
  {
    ...{ name: 'slow damping: slowest after 97 % for 3 days', asked: { atMost: 0 }, unit: 'h' },
    came: slowest(t.dampingsTold, t.dampings, t.slowestDamping_h),
  },
  {
    ...{ name: 'faults of probes recognised in time', asked: { atLeast: 0.95 }, unit: 'share' },
    came: shareOf(t.recognised, t.faults),
  },
  {
    ...{ name: '  told as rot', asked: { atMost: 0 }, unit: 'number' },
    came: t.faults > 0 ? t.faultsToldAsRot : null,
  },
];

function isMet({ asked, came }: Asked): boolean | null {
  if (came === null) return null;
  return 'atLeast' in asked ? came >= asked.atLeast : came <= asked.atMost;
}

export const criteriaOf = (totals: Totals): Criterion[] =>
  [...sources(totals), ...falseCalls(totals), ...places(totals), ...others(totals)].map((one) => ({
    ...one,
    met: isMet(one),
  }));
