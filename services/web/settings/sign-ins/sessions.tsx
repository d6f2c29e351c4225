/** Where people are signed in, and ending that. */
import { useState } from 'preact/hooks';
import { ask } from '../../api/client.js';
import { useSeen } from '../../api/seen.js';
import type { Session } from '../../api/types/access.js';
import { Button } from '../../parts/button.js';
import { messageOf } from '../../parts/form.js';
import { Notice } from '../../parts/notice.js';
import { Shown } from '../../parts/shown.js';
import { When } from '../../parts/when.js';
import { say } from '../../words/say.js';

/** @param all of everybody, or one's own alone */
export function Sessions({ all }: { all: boolean }) {
  const path = all ? '/api/sessions' : '/api/me/sessions';
  const seen = useSeen<readonly Session[]>(path, { live: ['access'] });
  const [failed, setFailed] = useState<string>();
  const end = async (id: string): Promise<void> => {
    setFailed(undefined);
    try {
      await ask(`${path}/${encodeURIComponent(id)}/revoke`, { method: 'POST', body: {} });
    } catch (error) {
      setFailed(messageOf(error));
    }
    seen.again();
  };
  return (
    <section class="card" aria-labelledby="sessions">
      <h2 id="sessions">{say('access.sessions')}</h2>
      {failed === undefined ? null : (
        <Notice kind="refusal">
          <p>{failed}</p>
        </Notice>
      )}
      <Shown of={seen}>
        {(sessions) => (
          <ul class="rows">
            {sessions.map((session) => (
              <SessionLine key={session.id} session={session} onEnd={() => end(session.id)} />
            ))}
          </ul>
        )}
      </Shown>
    </section>
  );
}

function SessionLine({ session, onEnd }: { session: Session; onEnd: () => Promise<void> }) {
  const { account, address, usedAt, isThis } = session;
  return (
    <li>
      <p>
        <b>{account}</b>, {address}, <When at={usedAt} />
        {isThis ? `. ${say('access.thisSession')}` : ''}
      </p>
      <div class="buttons">
        <Button kind="quiet" label={`${say('access.revoke')}: ${account}, ${address}`} onPress={onEnd}>
          {say('access.revoke')}
        </Button>
      </div>
    </li>
  );
}
