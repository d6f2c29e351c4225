/** Says where what is shown was read, and how finely it is kept. */
import { English } from '../../parts/notice.js';
import { say } from '../../words/say.js';
import { type SeriesModel, useSettled } from './model.js';
import { originOf } from './origins.js';

const WORDS = {
  'full-rate': 'series.fromReadings',
  hours: 'series.fromHours',
  'long-archive': 'series.fromLong',
} as const;

export function Origin({ model }: { model: SeriesModel }) {
  useSettled(model);
  const pieces = shownProbes(model).flatMap((probe) => model.pieces(probe, model.settledView));
  const { from, notes } = originOf(pieces.map(({ columns }) => columns));
  if (from.length === 0) return null;
  return (
    <p class="soft">
      {from.map((one) => say(WORDS[one])).join(' ')}
      {notes.map((note) => (
        <span key={note}>
          {' '}
          <English>{note}</English>.
        </span>
      ))}
    </p>
  );
}

const shownProbes = ({ choice: { front, others }, site: { probes } }: SeriesModel): readonly string[] =>
  others ? probes : [front];
