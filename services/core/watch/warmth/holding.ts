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

const STEPS_a_day = 4;

/** Steps in which each verdict has held, and the evidence in the first in which it was to be unpacked. */
export interface Held extends Readonly<Record<Source['action'], number>> {
  readonly from: number;
}

export const NONE_HELD: Held = { unpack: 0, check: 0, from: 0 };

/** @param source logarithm of the statistic for a source in this step */
export function heldOn(before: Held, verdict: Verdict, source: number): Held {
  if (verdict === null) return NONE_HELD;
  const check = before.check + 1;
  if (verdict === 'check') return { unpack: 0, check, from: 0 };
  return { unpack: before.unpack + 1, check, from: before.unpack === 0 ? source : before.from };
}

export interface Doubted {
  readonly evidence: Evidence;
  readonly step: number;
  /** No shade probe says what the weather does. */
  readonly blind: boolean;
}

/** What is to be told now. */
export function toldOn({ unpack, check, from }: Held, doubted: Doubted): Source['action'] | null {
  const { source } = doubted.evidence;
  const isSlow = isSlowIn(doubted);
  const steps = isSlow || isCloseIn(doubted) ? DOUBTFUL_steps : HOLDS_steps.unpack;
  if (unpack >= steps && (!isSlow || source - from >= GROWTH)) return 'unpack';
  return check >= HOLDS_steps.check ? 'check' : null;
}

const isSlowIn = ({ evidence: { source, best }, step }: Doubted): boolean =>
  best !== undefined && (step - best.onset.step) / STEPS_a_day > SLOW_days && source < SLOW;

const isCloseIn = ({ evidence: { best, fault, others }, blind }: Doubted): boolean =>
  others < OTHERS && (blind || (best?.ratio ?? 0) - (fault?.ratio ?? 0) < CLOSE);
