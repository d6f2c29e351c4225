import { useEffect } from 'preact/hooks';
import { useSeen } from '../../api/seen.js';
import type { Sand } from '../../api/types/sand.js';
import { Fold } from '../../parts/fold.js';
import { Shown } from '../../parts/shown.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import { Verdicts } from './sand-shown.js';

/** Tests that were kept for a bed, the newest first. `anew`: asked for again when it changes. */
export function EarlierSand({ bed, name, anew }: { bed: string; name: string; anew: unknown }) {
  const tests = useSeen<readonly Sand[]>(`/api/beds/${bed}/sand`);
  useEffect(() => tests.again(), [anew]);
  return (
    <section aria-labelledby="earlier-sand">
      <h2 id="earlier-sand">{say('sand.earlier', { bed: name })}</h2>
      <Shown of={tests}>
        {(all) =>
          all.length === 0 ? (
            <p>{say('sand.noEarlier')}</p>
          ) : (
            <ul class="earlier">
              {all.map(({ id, at, by, note, report }) => (
                <li key={id}>
                  <Fold title={say('sand.testBy', { day: dayAndTime(at ?? 0), name: by ?? '' })}>
                    <Verdicts report={report} />
                    {note ? <p>{note}</p> : null}
                  </Fold>
                </li>
              ))}
            </ul>
          )
        }
      </Shown>
    </section>
  );
}
