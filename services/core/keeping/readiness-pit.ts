/** What probes say of the air in a pit that is not filled yet. */
import type { TwoDays } from './readiness-days.js';
import { type Answer, type ReadinessItem, withLimits } from './readiness-item.js';
import { type LimitsInForce, ownLimit } from './readiness-limits.js';
import { atMost, highest, humiditiesOf, mapped, type ProbeInputs, unknown } from './readiness-worst.js';

/** Items of the air in a pit that is not filled yet. */
export function itemsOfOpenPit({ at, probes }: ProbeInputs, limits: LimitsInForce): ReadinessItem[] {
  const inPit = probes.filter(({ lies }) => lies === 'open pit');
  const days = humiditiesOf(inPit, at);
  const { pit_dry_RH, pit_rise_RH } = limits.own;
  const answerOf = (pick: (of: TwoDays) => number, most: number): Answer =>
    inPit.length === 0 ? unknown('no probe lies in the open pit') : atMost(mapped(days, pick), most, '%RH');
  return [
    withLimits(
      {
        id: 'pit-dry',
        question: 'Is the air in the open pit dry?',
        limit: `at most ${pit_dry_RH} %RH on both days`,
        reason: 'a pit that still gives off water wets the sand from below',
        answeredBy: 'probe',
      },
      [ownLimit('pit_dry_RH', limits)],
      answerOf(highest, pit_dry_RH),
    ),
    withLimits(
      {
        id: 'pit-steady',
        question: 'Does the air in the open pit stay as dry as it is?',
        limit: `a rise of at most ${pit_rise_RH} %RH from day to day`,
        reason: 'a rise means rain, a leak or ground water',
        answeredBy: 'probe',
      },
      [ownLimit('pit_rise_RH', limits)],
      answerOf(({ before, last }) => last - before, pit_rise_RH),
    ),
  ];
}
