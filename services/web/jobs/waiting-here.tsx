/** Records of this page that wait on the device, and what the service said of those that it did not take. */
import { useEffect, useRef } from 'preact/hooks';
import { takeBack, useOutbox, type Waiting } from '../api/outbox.js';
import { Button } from '../parts/button.js';
import { English, Notice } from '../parts/notice.js';
import { When } from '../parts/when.js';
import { say } from '../words/say.js';

interface WaitingParts {
  /** Address of the service that they are sent to. */
  readonly path: string;
  /** Called when fewer wait than before: what the service says has changed. */
  readonly onSent: () => void;
  /** Opens one that was not taken, to be mended; it is taken out of what waits. */
  readonly onMend?: (record: Waiting) => void;
}

export function WaitingHere({ path, onSent, onMend }: WaitingParts) {
  const waiting = useOutbox().filter((record) => record.path === path);
  const before = useRef(waiting.length);
  useEffect(() => {
    if (waiting.length < before.current) onSent();
    before.current = waiting.length;
  }, [waiting.length]);
  if (waiting.length === 0) return null;
  return (
    <Notice kind="plain" title={say('stock.waiting')}>
      <ul>
        {waiting.map((record) => (
          <OneWaiting key={record.id} record={record} onMend={onMend} />
        ))}
      </ul>
    </Notice>
  );
}

function OneWaiting({ record, onMend }: { record: Waiting; onMend: WaitingParts['onMend'] }) {
  const { id, title, madeAt, refusal } = record;
  const mend = async (): Promise<void> => {
    await takeBack(id);
    onMend?.(record);
  };
  return (
    <li>
      {title} <When at={madeAt} />
      {refusal === undefined ? null : (
        <p role="alert">
          <b>{say('stock.refused')}</b> <English>{refusal}</English>
        </p>
      )}
      <div class="buttons">
        {refusal !== undefined && onMend !== undefined ? (
          <Button kind="quiet" label={say('stock.mendOf', { what: title })} onPress={mend}>
            {say('stock.mend')}
          </Button>
        ) : null}
        <Button kind="quiet" label={say('stock.dropOf', { what: title })} onPress={() => takeBack(id)}>
          {say('stock.drop')}
        </Button>
      </div>
    </li>
  );
}
