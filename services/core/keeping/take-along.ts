/** What to have at the place before the work begins. */
import type { PlanKind } from './plan-steps.js';
import type { Roof } from './roof.js';

export interface TakenAlong {
  readonly item: string;
  readonly amount: number;
  readonly unit: string;
}

export interface Needed {
  readonly kind: PlanKind;
  readonly roots: number;
  readonly roots_kg: number;
  readonly buckets: number;
  readonly bucket_L: number;
  readonly sand_kg: number;
  readonly probes: number;
  readonly roof: Roof | null;
}

const metres = (cm: number): string => (Math.ceil(cm / 10) / 10).toFixed(1);

function forRoof(roof: Roof | null): TakenAlong[] {
  if (!roof) return [];
  return [
    { item: `side poles of ${metres(roof.side_pole_cm)} m`, amount: roof.side_poles, unit: 'pieces' },
    { item: `ridge poles of ${metres(roof.ridge_pole_cm)} m`, amount: roof.ridge_poles, unit: 'pieces' },
    { item: `beams of ${metres(roof.length_cm)} m: ridge and both eaves`, amount: 3, unit: 'pieces' },
    { item: 'thatch', amount: Math.round(10 * roof.thatch_m2) / 10, unit: 'm²' },
    { item: 'rope or wire to tie the roof', amount: 1, unit: 'roll' },
  ];
}

const DIGGING: readonly TakenAlong[] = [
  { item: 'spade or hoe', amount: 2, unit: 'pieces' },
  { item: 'pegs and string to mark the opening', amount: 1, unit: 'set' },
];

/** Tools are common practice, no source; amounts are the plan's. The shade probe hangs outside beside those in the sand. */
export function takeAlong(needed: Needed): TakenAlong[] {
  const { kind, roots, roots_kg, buckets, bucket_L, sand_kg, probes, roof } = needed;
  return [
    {
      item: 'roots: whole, cured, cooled',
      amount: roots,
      unit: `${roots === 1 ? 'piece' : 'pieces'} (${roots_kg < 10 ? roots_kg.toFixed(1) : Math.round(roots_kg)} kg)`,
    },
    {
      item: `sand: dry and cool, buckets of ${bucket_L} L`,
      amount: buckets,
      unit: `buckets (${Math.round(sand_kg)} kg)`,
    },
    ...(kind === 'box' ? [] : DIGGING),
    { item: 'bucket', amount: 2, unit: 'pieces' },
    { item: 'stick with hands and spans marked', amount: 1, unit: 'piece' },
    ...forRoof(roof),
    ...(probes > 0
      ? [{ item: 'probes for the sand, and one for the shade', amount: probes + 1, unit: 'pieces' }]
      : []),
    ...(probes > 0
      ? [{ item: 'labels for the probes, and this plan on paper', amount: 1, unit: 'set' }]
      : []),
  ];
}
