import { useState } from 'preact/hooks';
import { ask } from '../api/client.js';
import type { Bench } from '../api/types/bench.js';
import { TextField } from '../parts/field.js';
import { Fold } from '../parts/fold.js';
import { Form } from '../parts/form.js';
import { say } from '../words/say.js';

/** Ends a bench of which nothing comes. What was finished of it stays. */
export function GiveUp({ bench, again }: { bench: Bench; again: () => void }) {
  const [reason, setReason] = useState('');
  const send = async (): Promise<void> => {
    await ask(`/api/bench/${bench.id}/give-up`, { method: 'POST', body: { reason } });
    again();
  };
  return (
    <Fold title={say('bench.giveUp')}>
      <Form onSend={send} send={say('bench.giveUp')}>
        {(wrongs) => (
          <TextField
            label={say('bench.giveUpReason')}
            value={reason}
            onChange={setReason}
            wrong={wrongs['reason']}
            required
          />
        )}
      </Form>
    </Fold>
  );
}
