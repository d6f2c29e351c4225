/** From evidence to what is asked for: unpack, a look at the next visit, or a look at the probe. */
import { runLengthForAlarmRate } from '../sequential/index.js';
import { STEP_h } from './curve.js';
import type { Evidence } from './weighing.js';

/** Alarms that a sound bed may give in a month, by what they ask for. */
export interface Rates {
  readonly unpack_per_bed_month: number;
  readonly check_per_bed_month: number;
}

/** One statistic for the whole bed, once in six hours. */
const STEPPING = { step_h: STEP_h, parallel: 1 } as const;

/** By how much the source must outweigh the control, where the control says anything. Judgement, by evaluation. */
export const OVER_CONTROL = 4;
export const CONTROL_SPEAKS = 6;
/** Evidence of so many probes is no control's, where the control is hardly louder: while a bed is learned it may echo. Judgement, by evaluation. */
const OTHERS_BEYOND = 15;
const CONTROL_LOUDER = 3;
/** By how much a source must explain better than a fault of one probe. Judgement, by evaluation. */
export const OVER_FAULT = 3;
/** A source that one probe alone shows is told while it is young, days: from here on a drift passes for it more and more, */
const YOUNG_days = 4;
/** until what has so long been so is told only where it outweighs a fault by so much: drifts go on, a source levels off. Judgement, by evaluation. */
const OLD_ALONE_days = 9;
const OVER_FAULT_OLD = 11;
/** A probe that was taken for faulty is believed again where a source outweighs its fault by so much. Judgement, by evaluation. */
const REFUTED = 20;
/** Where probes scattered more than this before it began, the bed was not understood: it may be asked, not told. */
const UNSURE_scatter = 1.5;
/** But for evidence that leaves no doubt, in all and over a fault of one probe, beside a shade probe. Judgement, by evaluation. */
const BEYOND_DOUBT = 50;
const BEYOND_FAULT = 12;
/** Evidence of the other probes that settles it. */
export const OTHERS = 5;
/** A fault must explain better than any source by so much. */
const FAULT_OVER_SOURCE = 3;
const FAULT_RATIO = 12;

/** A source that has long been there and is weak is the bed's own slow change. */
const OLD_days = 18;
const WEAK_W = 1.3;
/** A source stronger than this is none: something else is wrong. */
const MOST_W = 9;

/** Run length in steps that a rate of alarms stands for, as the limit of a Shiryaev-Roberts statistic's logarithm. */
export const limitFor = (per_bed_month: number): number =>
  Math.log(runLengthForAlarmRate(per_bed_month, STEPPING));

export interface VerdictInput {
  readonly evidence: Evidence;
  /** No shade probe says what the weather does. */
  readonly blind: boolean;
  readonly rates: Rates;
  readonly step: number;
  /** Whether a probe jumped or was broken in the weeks before a step; whether a fault of it was told. */
  readonly isUnsound: (probe: number, step: number) => boolean;
  readonly isDoubted: (probe: number, step: number) => boolean;
}

export type Verdict = 'unpack' | 'check' | null;

export function verdictOn({ evidence, blind, rates, step, isUnsound, isDoubted }: VerdictInput): Verdict {
  const { source, best, fault, others } = evidence;
  if (!best || !(source > limitFor(rates.check_per_bed_month))) return null;
  if (best.power > MOST_W) return null;
  const age_days = (step - best.onset.step) / 4;
  if (age_days > OLD_days && best.power < WEAK_W) return null;
  const overFault = best.ratio - (fault?.ratio ?? 0);
  if (isDrowned(evidence, overFault, age_days)) return null;
  const limit = limitFor(rates.unpack_per_bed_month);
  const shownBy = [best.reading.nearest, best.onset.step] as const;
  const isBelieved = !isUnsound(...shownBy) && (overFault >= REFUTED || !isDoubted(...shownBy));
  const alone = isBelieved && overFault >= overFaultAt(age_days);
  const together = others >= OTHERS && overFault >= 0;
  const sure = !blind && source > BEYOND_DOUBT && overFault > BEYOND_FAULT;
  const firm = (alone || together) && (best.onset.scatter < UNSURE_scatter || sure);
  if (firm && source > limit) return 'unpack';
  return firm || overFault > -FAULT_OVER_SOURCE ? 'check' : null;
}

/** Whether the control, a source that cools, explains as much: but for an echo of what several probes show beyond doubt. */
function isDrowned({ source, control, others }: Evidence, overFault: number, age_days: number): boolean {
  if (!(control > CONTROL_SPEAKS && source - control < OVER_CONTROL)) return false;
  const isBeyond = source > BEYOND_DOUBT && overFault > BEYOND_FAULT && others > OTHERS_BEYOND;
  return !(isBeyond && age_days < OLD_ALONE_days && control - source < CONTROL_LOUDER);
}

/** By how much a source must explain better than a fault of the one probe that shows it, by its age. */
function overFaultAt(age_days: number): number {
  const old = (age_days - YOUNG_days) / (OLD_ALONE_days - YOUNG_days);
  return OVER_FAULT + (OVER_FAULT_OLD - OVER_FAULT) * Math.min(1, Math.max(0, old));
}

/**
 * The probe that must be looked at, where a fault of it explains the readings better than any source: of the probe that
 * a source is nearest to, unless the others bear that source out.
 */
export function faultIn({ best, fault, without }: Evidence): Evidence['fault'] {
  if (!fault || !(fault.ratio > FAULT_RATIO)) return undefined;
  const isOver = fault.ratio - (best?.ratio ?? 0) > FAULT_OVER_SOURCE;
  const isBorneOut = fault.probe === best?.reading.nearest && without >= OTHERS;
  return isOver && !isBorneOut ? fault : undefined;
}
