/** One value of a probe through all that is asked of it, and what its hour gathers. */
import type { FlaggedQuantity, FlagReason, QualityFlag } from '../flag.js';
import { countSame, isStuck, learnResolution } from './constant.js';
import { believe, judgeDeparture } from './departure.js';
import { HourOfValues } from './hour-of-values.js';
import { LIMITS, QUALITY } from './limits.js';
import { remembered } from './rounding.js';
import { offTheLine } from './scatter.js';
import { addSign } from './signs.js';
import type { QualityState } from './state.js';

/** A change of level that lasted, and so was believed. */
export interface QualityStep {
  /** Time of the first value at the new level, ms. */
  readonly at: number;
  readonly quantity: FlaggedQuantity;
  /** New level less the old one, °C or %RH. */
  readonly size: number;
}

/** What one quantity gathers in an hour. */
export interface Gathered {
  readonly values: HourOfValues;
  /** Of `offTheLine`. */
  readonly offs: number[];
  readonly flags: QualityFlag[];
  readonly steps: QualityStep[];
  /** Whether there was a code, or a spike that came back. */
  coded: boolean;
  spiked: boolean;
  /** When the value became the same that it was too long by now, ms. */
  stuckSince: number | undefined;
}

export const newGathered = (): Gathered => ({
  values: new HourOfValues(),
  offs: [],
  flags: [],
  steps: [],
  coded: false,
  spiked: false,
  stuckSince: undefined,
});

/** What is known of a value before it is held against others. */
export interface Beforehand {
  readonly code: boolean;
  readonly unsettled: boolean;
  /** The sensor is known to be dead. */
  readonly dead: boolean;
}

/** Whether sand or air can be like that; written so that no number at all is not. */
export function isPossible({ place }: QualityState, quantity: FlaggedQuantity, value: number): boolean {
  const { least, most } = LIMITS[place][quantity];
  return value >= least && value <= most;
}

/** Judges one value; adds it to the hour's usable ones or flags it. */
export function judgeValue(
  state: QualityState,
  quantity: FlaggedQuantity,
  at: number,
  value: number,
  before: Beforehand,
  hour: Gathered,
): void {
  const reason = reasonAgainst(state, quantity, at, remembered(value), before, hour);
  if (reason) hour.flags.push({ at, quantity, reason });
  else hour.values.take(value);
}

function reasonAgainst(
  state: QualityState,
  quantity: FlaggedQuantity,
  at: number,
  value: number,
  before: Beforehand,
  hour: Gathered,
): FlagReason | undefined {
  const own = state[quantity];
  if (before.code || !isPossible(state, quantity, value)) {
    hour.coded = true;
    addSign(own.codes, at, QUALITY.codesApart_h);
    return before.code ? 'sensor-code' : 'out-of-range';
  }
  countSame(own, at, value);
  const off = offTheLine(own, at, value);
  if (before.unsettled) {
    believe(own, at, value);
    return 'unsettled';
  }
  if (off !== undefined) hour.offs.push(off);
  if (before.dead) return 'stuck';
  if (isStuck(state, quantity, at)) {
    hour.stuckSince = own.same?.since ?? at;
    return 'stuck';
  }
  return reasonOfDeparture(state, quantity, at, value, hour);
}

function reasonOfDeparture(
  state: QualityState,
  quantity: FlaggedQuantity,
  at: number,
  value: number,
  hour: Gathered,
): FlagReason | undefined {
  const own = state[quantity];
  const { away, recent } = own;
  const level = recent.at(-1)?.[1];
  switch (judgeDeparture(own, at, value, LIMITS[state.place][quantity])) {
    case 'far':
      return 'spike';
    case 'fast':
      return 'impossible-rate';
    case 'step':
      hour.steps.push({ at: away?.since ?? at, quantity, size: value - (level ?? value) });
      return undefined;
    case 'returned':
      hour.spiked = true;
      addSign(own.spikes, at, QUALITY.spikesApart_h);
      nameSpikes(hour.flags, away?.since ?? at);
      return undefined;
    case 'usual':
      learnResolution(own, level, value);
      return undefined;
  }
}

/** What came back was a spike, however quick the change looked. */
function nameSpikes(flags: QualityFlag[], since: number): void {
  flags.forEach((flag, index) => {
    if (flag.at >= since && flag.reason === 'impossible-rate') flags[index] = { ...flag, reason: 'spike' };
  });
}
