/** All the evidence of a step: for a source anywhere, against it, and for a fault of a probe. */
import { type Bank, type Onset, spacingAt } from './bank.js';
import { type Reading, type Scales, type Weighed, type WeighedFault, weighFaults } from './search.js';

export interface Candidate extends Weighed {
  readonly onset: Onset;
  readonly reading: Reading;
}

export interface Evidence {
  /**
   * Logarithm of the sum of likelihood ratios over all beginnings, each the mean over all places: a Shiryaev-Roberts
   * statistic. In a sound bed its mean grows by one with each step, so the run length to a limit is no shorter than
   * the limit (Pollak 1985, Ann. Statist. 13, 206-227; from memory).
   */
  readonly source: number;
  /** The same for sources that cool: they cannot be, and show what is wrong with the expectation itself. */
  readonly control: number;
  readonly best: Candidate | undefined;
  readonly fault: WeighedFault | undefined;
  /** Ratio of the best source without the probe that the best fault is of. */
  readonly without: number;
  /** Ratio of the best source without the probe that it is nearest to and those that were not to be believed. */
  readonly others: number;
}

/** Ratios above this are as good as certain, and their exponentials could overflow. */
const CERTAIN = 690;
/** Beginnings that can give no more than this are passed over. */
const NOTHING = 3;
/** A source weaker than this is none, W. */
const LEAST_W = 0.2;

const exponential = (ratio: number): number => Math.exp(Math.min(CERTAIN, ratio));

export interface WeighingInput {
  readonly bank: Bank;
  readonly scales: Scales;
  /** Places spread over the bed. */
  readonly readings: readonly Reading[];
  readonly step: number;
  /** Beginnings before this are not looked at: the sand had not come to rest. */
  readonly notBefore: number;
  /** Faults that began before this are not looked at: a source that is told of explains them. */
  readonly faultsFrom: number;
  /** Probes that show a source that is told of: what they show otherwise is put down to it, and to no fault. */
  readonly explained: ReadonlySet<number>;
  /** Whether a probe was moved or changed in the weeks before a step. */
  readonly isDistrusted: (probe: number, step: number) => boolean;
}

/** Below this nobody asks for the control. */
const SPEAKS = 4;

function controlOf({ bank, scales, readings, step, notBefore }: WeighingInput): number {
  let control = 0;
  for (const onset of bank.onsets) {
    if (onset.step < notBefore || scales.bound(onset, bank.probes) < NOTHING) continue;
    const spacing = spacingAt(step - onset.step) / readings.length;
    for (const reading of readings) {
      const cooling = scales.weigh(reading, onset, -1);
      if (cooling.power > LEAST_W) control += spacing * exponential(cooling.ratio);
    }
  }
  return Math.log(control);
}

/** Of all probes but those that a told source explains; of these, only of the one that the best source is nearest to. */
function worstFault(
  { bank, faultsFrom, explained }: WeighingInput,
  nearest: number | undefined,
): WeighedFault | undefined {
  let worst: WeighedFault | undefined;
  for (const onset of bank.onsets) {
    if (onset.step < faultsFrom) continue;
    for (let probe = 0; probe < bank.probes; probe += 1)
      for (const weighed of explained.has(probe) && probe !== nearest ? [] : weighFaults(onset, probe))
        if (!worst || weighed.ratio > worst.ratio) worst = weighed;
  }
  return worst;
}

export function weighAll(input: WeighingInput): Evidence {
  const { bank, scales, readings, step, notBefore } = input;
  let source = 0;
  let best: Candidate | undefined;
  for (const onset of bank.onsets) {
    if (onset.step < notBefore || scales.bound(onset, bank.probes) < NOTHING) continue;
    const spacing = spacingAt(step - onset.step) / readings.length;
    for (const reading of readings) {
      const weighed = scales.weigh(reading, onset);
      if (weighed.power > LEAST_W) {
        source += spacing * exponential(weighed.ratio);
        if (!best || weighed.ratio > best.ratio) best = { ...weighed, onset, reading };
      }
    }
  }
  const control = Math.log(source) > SPEAKS ? controlOf(input) : Number.NEGATIVE_INFINITY;
  const fault = worstFault(input, best?.reading.nearest);
  const without = best && fault ? withoutProbe(best, fault.probe, scales) : 0;
  const others = best ? othersOf(best, input) : 0;
  return { source: Math.log(source), control, best, fault, without, others };
}

function othersOf(best: Candidate, { scales, isDistrusted }: WeighingInput): number {
  const { nearest } = best.reading;
  return withoutProbes(best, (probe) => probe === nearest || isDistrusted(probe, best.onset.step), scales);
}

export const withoutProbe = (candidate: Candidate, probe: number, scales: Scales): number =>
  withoutProbes(candidate, (one) => one === probe, scales);

function withoutProbes(
  { reading, onset }: Candidate,
  isLeftOut: (probe: number) => boolean,
  scales: Scales,
): number {
  const kept = [...reading.probes.keys()].filter((index) => !isLeftOut(reading.probes[index] as number));
  if (kept.length === 0) return 0;
  const shapes = reading.weights.length / reading.probes.length;
  const rest: Reading = {
    place: reading.place,
    nearest: reading.nearest,
    sizes: Float64Array.from(kept, (index) => reading.sizes[index] as number),
    probes: Int32Array.from(kept, (index) => reading.probes[index] as number),
    uncertain: Float64Array.from(kept, (index) => reading.uncertain[index] as number),
    weights: Float64Array.from(
      kept.flatMap((index) => [...reading.weights.subarray(index * shapes, (index + 1) * shapes)]),
    ),
  };
  return scales.weigh(rest, onset).ratio;
}
