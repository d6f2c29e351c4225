/** Evidence for a source grows from step to step. What leaps out of nothing is somebody's hand in the sand. */

/**
 * Rise of the best ratio in one step of six hours that no source makes out of nothing. Judgement: at 25 strong sources
 * were taken for hands; from 80 on the evaluation gave the same.
 */
const LEAP = 120;
/** No longer nothing: a source that grows in two days, a hand's breadth from a probe, leaps from here on. Judgement. */
const SOMETHING = 40;

/** @param before logarithm of the best likelihood ratio a step ago @param now the same, now */
export const isLeap = (before: number, now: number): boolean => before < SOMETHING && now - before > LEAP;
