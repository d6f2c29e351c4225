/** What was changed of a trial, the newest first, with who said so and why. */
import { useSeen } from '../api/seen.js';
import type { Trial } from '../api/types/trial.js';
import { Fold } from '../parts/fold.js';
import { Shown } from '../parts/shown.js';
import { say } from '../words/say.js';
import { wholeTime } from '../words/times.js';
import { useBedName } from './bed-names.js';
import { historyLines } from './history-lines.js';

export function History({ path }: { path: string }) {
  const versions = useSeen<readonly Trial[]>(`${path}/versions`, { live: ['beds'] });
  const nameOf = useBedName();
  return (
    <Fold title={say('trialForms.history')}>
      <Shown of={versions}>
        {(all) => (
          <ol class="trial-history" reversed>
            {all.map((one, at) => (
              <li key={one.version}>
                {historyLines(one, all[at + 1], nameOf).map((line) => (
                  <p key={line}>{line}</p>
                ))}
                {one.reason === null || isDraw(one, all[at + 1]) ? null : (
                  <p>{say('trialForms.because', { reason: one.reason })}</p>
                )}
                <p class="soft">{say('trialForms.whoWhen', { by: one.by, when: wholeTime(one.at) })}</p>
              </li>
            ))}
          </ol>
        )}
      </Shown>
    </Fold>
  );
}

/** The service itself says then why. */
const isDraw = (now: Trial, before: Trial | undefined): boolean =>
  (now.drawn !== null && now.drawn.seed !== before?.drawn?.seed) ||
  (now.assigned?.how === 'chance' && before?.assigned === null);
