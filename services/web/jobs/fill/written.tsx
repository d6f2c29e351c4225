/** Fillings of a bed that were written down, the newest first. */
import type { Filling } from '../../api/types/filling.js';
import { Button } from '../../parts/button.js';
import { Fold } from '../../parts/fold.js';
import { When } from '../../parts/when.js';
import { kilograms, number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { dayOf } from '../../words/times.js';
import { Depths } from './depths.js';

interface WrittenParts {
  readonly bed: string;
  readonly fillings: readonly Filling[];
  readonly onMend: (filling: Filling) => void;
}

export function Written({ bed, fillings, onMend }: WrittenParts) {
  const [last, ...earlier] = fillings.filter(({ inForce }) => inForce);
  const replaced = fillings.filter(({ inForce }) => !inForce);
  if (last === undefined) return null;
  return (
    <section>
      <h2>{say('fill.written')}</h2>
      <article class="card">
        <h3>{say('fill.filledOn', { day: dayOf(last.at) })}</h3>
        <Facts filling={last} />
        <Depths bed={bed} filling={last} />
        <Button kind="quiet" onPress={() => onMend(last)}>
          {say('fill.mend')}
        </Button>
      </article>
      {[...earlier, ...replaced].map((filling) => (
        <Fold
          key={filling.id}
          title={say(filling.inForce ? 'fill.earlier' : 'fill.replaced', { day: dayOf(filling.at) })}
        >
          <Facts filling={filling} />
        </Fold>
      ))}
    </section>
  );
}

function Facts({ filling }: { filling: Filling }) {
  const { at, by, courses, roots, mass_kg, cultivar, field, lot, note } = filling;
  const rows: readonly (readonly [label: string, text: string | undefined])[] = [
    [say('fill.roots'), say('fill.rootsIn', { roots: number(roots), courses: courses.length })],
    [say('fill.mass'), mass_kg === null ? say('parts.unknown') : kilograms(mass_kg, 1)],
    [say('fill.cultivar'), cultivar],
    [say('fill.field'), field],
    [say('fill.lot'), lot],
    [say('fill.by'), by],
    [say('fill.note'), note],
  ];
  return (
    <dl class="facts">
      <div>
        <dt>{say('fill.at')}</dt>
        <dd>
          <When at={at} />
        </dd>
      </div>
      {rows.map(([label, text]) =>
        text === undefined ? null : (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{text}</dd>
          </div>
        ),
      )}
    </dl>
  );
}
