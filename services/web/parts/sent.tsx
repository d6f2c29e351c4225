/** What waited on this device and was sent since the page was opened. */
import { forgetSent, useSent } from '../api/outbox.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';
import { Button } from './button.js';
import { Notice } from './notice.js';

export function SentSince() {
  const sent = useSent();
  return (
    <div role="status">
      {sent.length === 0 ? null : (
        <Notice kind="plain">
          {sent.map(({ id, title, madeAt }) => (
            <p key={id}>{say('app.sent', { title, when: dayAndTime(madeAt) })}</p>
          ))}
          <Button kind="quiet" onPress={forgetSent}>
            {say('parts.close')}
          </Button>
        </Notice>
      )}
    </div>
  );
}
