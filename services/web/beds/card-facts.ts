/** What a bed's card says, from what the service tells of its probes. */
import type { Bed, Probe } from '../api/types/bed.js';

export interface CardFacts {
  /** The probe that is warmest against a sound bed; undefined where none was judged. */
  readonly warmest: { readonly probe: Probe; readonly excess_C: number } | undefined;
  /** Least and most of the newest humidity of each probe, %RH; undefined where none measured it. */
  readonly humidity: { readonly least_RH: number; readonly most_RH: number } | undefined;
  /** Of all probes, RFC 3339; undefined where none has spoken. */
  readonly newestAt: string | undefined;
}

export function cardFacts({ probes, filled }: Pick<Bed, 'probes' | 'filled'>): CardFacts {
  // Before it is filled there is no sound bed to compare it with.
  const judged = probes.flatMap((probe) =>
    probe.excess_C === null || filled === null ? [] : [{ probe, excess_C: probe.excess_C }],
  );
  const moist = probes.flatMap(({ latest }) => latest?.humidity_RH ?? []);
  const times = probes.flatMap(({ latest }) => latest?.at ?? []);
  return {
    warmest: judged.sort((one, other) => other.excess_C - one.excess_C)[0],
    humidity: moist.length === 0 ? undefined : { least_RH: Math.min(...moist), most_RH: Math.max(...moist) },
    newestAt: times.sort((one, other) => Date.parse(other) - Date.parse(one))[0],
  };
}
