/** What was changed, by whom, from where, and what came of it. */
import { useSeen } from '../../api/seen.js';
import type { AuditEntry } from '../../api/types/access.js';
import { Shown } from '../../parts/shown.js';
import { When } from '../../parts/when.js';
import { say } from '../../words/say.js';

export function Trail() {
  const seen = useSeen<readonly AuditEntry[]>('/api/audit');
  return (
    <section class="card">
      <h2>{say('access.trail')}</h2>
      <Shown of={seen}>
        {(rows) => (
          <ul>
            {rows.map(({ seq, at, who, address, did, what, result }) => (
              <li key={seq}>
                <When at={at} />: {say('access.trailRow', { who, address, what: `${did} ${what}` })} (
                {result ?? say('access.noResult')})
              </li>
            ))}
          </ul>
        )}
      </Shown>
    </section>
  );
}
