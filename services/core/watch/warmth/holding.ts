/**
 * How long a verdict must hold before it is told. Evidence for rot grows from day to day; what a hot spell, sand that was
 * warmed at an opening or a drift makes of one probe stands still or falls back within the day.
 */
import type { Source } from './heat-types.js';
import { OTHERS, type Verdict } from './verdict.js';
import type { Evidence } from './weighing.js';

/** Steps in a row in which a verdict must hold before it is told. */
const HOLDS_steps = { unpack: 2, check: 4 } as const;
/** The same for evidence that is doubtful. Judgement, by evaluation. */
const DOUBTFUL_steps = 4;
/** A source that one probe shows alone, and that outweighs a fault of a probe by less than this, is doubtful. Judgement. */
const CLOSE = 5;
/** So is one that began more days ago than this and is no surer than that, */
const SLOW_days = 5;
const SLOW = 25;
/** which is told only if the evidence has grown by so much while the verdict held. Judgement, by evaluation. */
const GROWTH = 1;

/**
 * Sand that was put back warm is told at once, and the control mostly catches up with it in a day and a half: evidence of
 * a source that began less than so long ago, or that rose from nothing by so much in a step, must hold for longer, unless
 * other probes bear it out or it grows so many times in a step. Judgement, by evaluation.
 */
const ABRUPT_steps = 6;
const ABRUPT_days = 1;
const NOTHING = 15;
const ABRUPT_rise = 60;
const GROWN_steps = 2;
const GROWN_times = 2.5;

const STEPS_a_day = 4;

/** Steps in which each verdict has held. */
export interface Held extends Readonly<Record<Source['action'], number>> {
  /** The evidence in the first step in which it was to be unpacked, and whether it came abruptly. */
  readonly from: number;
  readonly abrupt: boolean;
  /** The evidence in the last step, 0 where there was none. */
  readonly last: number;
}

export const NONE_HELD: Held = { unpack: 0, check: 0, from: 0, abrupt: false, last: 0 };

/** @param verdict null also where the source is told of already */
export function heldOn(before: Held, verdict: Verdict, doubted: Doubted): Held {
  const last = Math.max(0, doubted.evidence.source);
  if (verdict === null) return { ...NONE_HELD, last };
  const check = before.check + 1;
  if (verdict === 'check') return { ...NONE_HELD, check, last };
  if (before.unpack > 0) return { ...before, unpack: before.unpack + 1, check, last };
  return { unpack: 1, check, from: last, abrupt: isAbrupt(before, doubted), last };
}

const ageOf = ({ evidence: { best }, step }: Doubted): number =>
  best === undefined ? 0 : (step - best.onset.step) / STEPS_a_day;

const isAbrupt = ({ last }: Held, doubted: Doubted): boolean =>
  ageOf(doubted) < ABRUPT_days || (last < NOTHING && doubted.evidence.source - last > ABRUPT_rise);

export interface Doubted {
  readonly evidence: Evidence;
  readonly step: number;
  /** No shade probe says what the weather does. */
  readonly blind: boolean;
}

/** What is to be told now. */
export function toldOn({ unpack, check, from, abrupt }: Held, doubted: Doubted): Source['action'] | null {
  const { source } = doubted.evidence;
  const isSlow = isSlowIn(doubted);
  const usual = isSlow || isCloseIn(doubted) ? DOUBTFUL_steps : HOLDS_steps.unpack;
  const isHasty = abrupt && unpack < ABRUPT_steps && !isBorneOut(doubted, unpack, from);
  if (isHasty) return check >= HOLDS_steps.check ? 'check' : null;
  if (unpack >= usual && (!isSlow || source - from >= GROWTH)) return 'unpack';
  return check >= HOLDS_steps.check ? 'check' : null;
}

const isSlowIn = (doubted: Doubted): boolean => ageOf(doubted) > SLOW_days && doubted.evidence.source < SLOW;

const isBorneOut = ({ evidence: { others, source } }: Doubted, steps: number, from: number): boolean =>
  others >= OTHERS || (steps >= GROWN_steps && source > GROWN_times * from);

const isCloseIn = ({ evidence: { best, fault, others }, blind }: Doubted): boolean =>
  others < OTHERS && (blind || (best?.ratio ?? 0) - (fault?.ratio ?? 0) < CLOSE);
