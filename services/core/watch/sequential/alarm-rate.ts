/**
 * False alarms of a bed in a month, and the run length in steps that each of its statistics must have.
 *
 * Each statistic that begins anew after its signal gives, in the long run, 1 / run length signals a step. The
 * expected number of signals of several is their sum, however much they depend on each other; signals that come
 * together are one alarm to the keeper. So dividing the rate among the statistics (Bonferroni) is exact for signals,
 * and an upper bound for alarms: nearly reached by independent statistics, and up to `parallel` times too strict
 * for statistics that say the same. Run lengths hold for independent observations: of a series that remembers, give
 * the chart what its own past does not explain.
 */
import { requireInDomain } from '../../errors.js';

/** Days of a bed-month: convention. */
export const BED_MONTH_days = 30;

export interface Stepping {
  /** Length of a step of the statistics, h, in [1/60, 720]. */
  readonly step_h: number;
  /**
   * Statistics of the bed that are watched side by side, at least 1; a two-sided chart whose run length is that of
   * both sides counts once. For statistics that depend on each other a smaller number may be known from simulation:
   * it need not be whole.
   */
  readonly parallel: number;
}

/**
 * Run length in control that each statistic needs.
 *
 * @param alarmsPerBedMonth at the most, in [1e-6, 100]
 * @returns steps, at least 1
 * @throws SandlarderError OUT_OF_DOMAIN, also where the rate asks for more than one alarm a step
 */
export function runLengthForAlarmRate(alarmsPerBedMonth: number, stepping: Stepping): number {
  requireInDomain('alarms per bed-month', alarmsPerBedMonth, 1e-6, 100);
  const runLength = signalsAtEveryStep(stepping) / alarmsPerBedMonth;
  requireInDomain('run length, steps', runLength, 1, Number.MAX_VALUE);
  return runLength;
}

/**
 * False alarms of a bed in a month, at the most.
 *
 * @param runLength in control of each statistic, steps, at least 1
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function alarmRateForRunLength(runLength: number, stepping: Stepping): number {
  requireInDomain('run length, steps', runLength, 1, Number.MAX_VALUE);
  return signalsAtEveryStep(stepping) / runLength;
}

function signalsAtEveryStep({ step_h, parallel }: Stepping): number {
  requireInDomain('step, h', step_h, 1 / 60, 720);
  requireInDomain('parallel statistics', parallel, 1, 1e6);
  return (parallel * BED_MONTH_days * 24) / step_h;
}
