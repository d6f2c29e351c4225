/** Reading quality of all probes of a bed and of its shade, hour by hour. */
import { median } from 'simple-statistics';
import { correctHour, correctSamples, type Shift, shiftOf } from './corrections.js';
import type { PlacedProbe } from './placements.js';
import { placeKey } from './placements.js';
import {
  type FaultVerdict,
  newQuality,
  placeAnew,
  type QualityState,
  stepQuality,
  type UsableHour,
} from './quality/index.js';
import type { BedHour, HourSummary, ProbeHour, QualityFlag, Sample } from './watch.js';

interface Kept {
  readonly place: string;
  readonly state: QualityState;
}

export interface SavedQuality {
  readonly probes: readonly (readonly [id: string, kept: Kept])[];
  readonly shade: readonly (readonly [id: string, kept: Kept])[];
}

export interface JudgedHour {
  /** By probe: what is usable, corrected. */
  readonly probes: ReadonlyMap<string, UsableHour>;
  /** The shade probes together. */
  readonly shade: ProbeHour;
  readonly flags: ReadonlyMap<string, readonly QualityFlag[]>;
  /** By probe of the bed. */
  readonly faults: ReadonlyMap<string, readonly FaultVerdict[]>;
  /** By probe of the bed: by how much its corrected values jump in this hour; absent where they do not. */
  readonly shifts: ReadonlyMap<string, Shift>;
  /** The samples of a probe without what was flagged, corrected. */
  usable(id: string, samples: readonly Sample[]): readonly Sample[];
}

export class HourQuality {
  #probes = new Map<string, Kept>();
  #shade = new Map<string, Kept>();

  take(hour: BedHour, placed: readonly PlacedProbe[]): JudgedHour {
    const flags = new Map<string, readonly QualityFlag[]>();
    const faults = new Map<string, readonly FaultVerdict[]>();
    const probes = new Map<string, UsableHour>();
    const shifts = new Map<string, Shift>();
    const spoke = placed.filter(({ id }) => (hour.probes.get(id)?.length ?? 0) > 0).length;
    const before = this.#probes;
    this.#probes = new Map();
    for (const probe of placed) {
      const { id, placement } = probe;
      const samples = hour.probes.get(id) ?? [];
      const kept = begun(before.get(id), placeKey(probe), 'bed', placement.from);
      this.#probes.set(id, kept);
      const others = spoke - (samples.length > 0 ? 1 : 0) > 0;
      const result = stepQuality(kept.state, hour.hour, samples, others);
      const corrections = hour.corrections?.get(id);
      const shift = shiftOf(result.hour, corrections);
      if (Object.keys(shift).length > 0) shifts.set(id, shift);
      probes.set(id, correctHour(result.hour, corrections));
      if (result.flags.length > 0) flags.set(id, result.flags);
      faults.set(id, result.faults);
    }
    const shade = this.#takeShade(hour, spoke > 0, flags);
    return {
      ...{ probes, shade, flags, faults, shifts },
      usable: (id, samples) =>
        correctSamples(withoutFlagged(samples, flags.get(id) ?? []), hour.corrections?.get(id)),
    };
  }

  #takeShade(hour: BedHour, othersSpoke: boolean, flags: Map<string, readonly QualityFlag[]>): ProbeHour {
    const usable: ProbeHour[] = [];
    for (const id of [...new Set([...this.#shade.keys(), ...hour.shade.keys()])].sort()) {
      const kept = begun(this.#shade.get(id), 'shade', 'shade', hour.hour);
      this.#shade.set(id, kept);
      const result = stepQuality(kept.state, hour.hour, hour.shade.get(id) ?? [], othersSpoke);
      usable.push(correctHour(result.hour, hour.corrections?.get(id)));
      if (result.flags.length > 0) flags.set(id, result.flags);
    }
    const temperature = middleOf(usable.flatMap((one) => one.temperature ?? []));
    const humidity = middleOf(usable.flatMap((one) => one.humidity ?? []));
    return { ...(temperature && { temperature }), ...(humidity && { humidity }) };
  }

  save(): SavedQuality {
    return { probes: [...this.#probes], shade: [...this.#shade] };
  }

  restore({ probes, shade }: SavedQuality): void {
    this.#probes = new Map(probes);
    this.#shade = new Map(shade);
  }
}

/** By probe: its usable mean, corrected, where it has one. */
export function meansOf(
  placed: readonly PlacedProbe[],
  { probes }: JudgedHour,
  quantity: 'temperature' | 'humidity',
  isCounted: (id: string) => boolean = () => true,
): ReadonlyMap<string, number> {
  return new Map(
    placed.flatMap(({ id }) => {
      const mean = probes.get(id)?.[quantity]?.mean;
      return mean !== undefined && isCounted(id) ? [[id, mean] as const] : [];
    }),
  );
}

function begun(kept: Kept | undefined, place: string, where: 'bed' | 'shade', from: number): Kept {
  if (!kept) return { place, state: newQuality(where, from) };
  return kept.place === place ? kept : { place, state: placeAnew(kept.state, where, from) };
}

/** Of several shade probes the one in the middle: one that stands in the sun is outvoted by two. */
function middleOf(summaries: readonly HourSummary[]): HourSummary | undefined {
  const [first, ...others] = summaries;
  if (!first || others.length === 0) return first;
  const of = (part: keyof HourSummary): number => median(summaries.map((summary) => summary[part]));
  return { count: first.count, mean: of('mean'), min: of('min'), max: of('max') };
}

function withoutFlagged(samples: readonly Sample[], flags: readonly QualityFlag[]): readonly Sample[] {
  if (flags.length === 0) return samples;
  return samples.map((sample) => {
    const isFlagged = (quantity: QualityFlag['quantity']): boolean =>
      flags.some((flag) => flag.at === sample.at && flag.quantity === quantity);
    const { at, temperature, humidity } = sample;
    return {
      at,
      ...(temperature !== undefined && !isFlagged('temperature') && { temperature }),
      ...(humidity !== undefined && !isFlagged('humidity') && { humidity }),
    };
  });
}
