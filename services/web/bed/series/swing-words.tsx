/** How much of the swing outside arrives, in a sentence: on the day that is pointed at, or the last one. */
import type { ProbeSwingAnswer, SwingAnswer } from '../../api/types/series.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { dayOf } from '../../words/times.js';
import type { SeriesModel } from './model.js';

const percent = (share: number): string => number(100 * share, share < 0.1 ? 1 : 0);

export function SwingWords({ model, swing }: { model: SeriesModel; swing: SwingAnswer }) {
  const at = model.pointed ?? model.view.to;
  const probe = swing.probes.filter((one) => one.probe === model.choice.front).at(-1);
  return <p class="swing-words">{probe ? swingWords(probe, at) : say('series.swingNothing')}</p>;
}

function swingWords(swing: ProbeSwingAnswer, at: number): string {
  const sand = swing.lets
    ? say('series.swingSand', {
        ...{ dry: percent(swing.lets.dry), damp: percent(swing.lets.dampFrom) },
        ...{ wet: percent(swing.lets.wetFrom), factor: number(swing.lets.factor, 1) },
      })
    : say('series.swingBare');
  return `${shareWords(swing, at)} ${sand}`;
}

function shareWords({ probe, time, share, atMost, because }: ProbeSwingAnswer, at: number): string {
  const place = Math.max(0, time.filter((text) => Date.parse(text) <= at).length - 1);
  const when = time[place];
  if (when === undefined) return say('series.swingNothing');
  const values = { probe, day: dayOf(when), share: percent(share[place] ?? 0) };
  const why = because[place];
  if (why !== null && why !== undefined) return say(`series.swing_${WHY[why]}`, values);
  return say(atMost[place] ? 'series.swingAtMost' : 'series.swingShare', values);
}

const WHY = {
  ...({ 'no-shade': 'no_shade', 'little-swing': 'little_swing' } as const),
  ...({ 'too-few-hours': 'too_few_hours', handled: 'handled' } as const),
};
