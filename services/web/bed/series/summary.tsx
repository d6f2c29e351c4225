/** What the plots say, in a sentence before them. */
import { celsius } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import { placeOf } from './columns.js';
import { type SeriesModel, useSettled } from './model.js';

interface Warmest {
  readonly probe: string;
  readonly at: number;
  readonly excess: number;
  readonly band: number;
}

export function Summary({ model }: { model: SeriesModel }) {
  useSettled(model);
  return <p class="series-summary">{summaryWords(model)}</p>;
}

function summaryWords(model: SeriesModel): string {
  const warmest = warmestIn(model);
  if (!warmest) return say('series.nothingJudged');
  const { probe, at, excess, band } = warmest;
  const values = { probe, when: dayAndTime(at), excess: celsius(excess), band: celsius(band) };
  return say(excess > band ? 'series.warmest' : 'series.allSound', values);
}

/** The hour that is furthest above what is expected, held against its band. */
export function warmestIn(model: SeriesModel): Warmest | undefined {
  const { choice, site, settledView } = model;
  const probes = choice.others ? site.probes : [choice.front];
  let warmest: Warmest | undefined;
  for (const probe of probes)
    for (const { columns, clip } of model.pieces(probe, settledView)) {
      const { time, excess, band } = columns.hours;
      for (let at = placeOf(time, clip.from); at < placeOf(time, clip.to); at += 1) {
        const [above, within] = [excess[at] as number, band[at] as number];
        if (Number.isNaN(above) || Number.isNaN(within)) continue;
        if (!warmest || above - within > warmest.excess - warmest.band)
          warmest = { probe, at: time[at] as number, excess: above, band: within };
      }
    }
  return warmest;
}
