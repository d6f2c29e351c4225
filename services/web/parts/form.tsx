/** A form that sends itself, and puts what the service found wrong beside the fields. Nothing that was typed is lost. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { NoNetwork, Refusal, type Wrong } from '../api/client.js';
import { say } from '../words/say.js';
import { Button } from './button.js';
import { Notice } from './notice.js';

/** What is wrong, by JSON pointer without `#/`: `roots/count`. */
export type Wrongs = Readonly<Record<string, string>>;

/** Thrown by `onSend` where the page itself sees that something is not as expected. */
export class NotAsExpected extends Error {
  override readonly name = 'NotAsExpected';
  constructor(readonly wrongs: Wrongs) {
    super(say('parts.somethingWrong'));
  }
}

interface FormParts {
  /** Sends what was typed. Rejects with NotAsExpected, Refusal, NoNetwork. */
  readonly onSend: () => Promise<unknown>;
  readonly send: string;
  readonly label?: string;
  readonly children: (wrongs: Wrongs) => ComponentChildren;
  /** Further buttons beside that which sends. */
  readonly beside?: ComponentChildren;
}

export function Form({ onSend, send, label, children, beside }: FormParts) {
  const [busy, setBusy] = useState(false);
  const [wrongs, setWrongs] = useState<Wrongs>({});
  const [failed, setFailed] = useState<string>();
  const submit = async (event: Event): Promise<void> => {
    event.preventDefault();
    if (busy) return;
    setBusy(true);
    setWrongs({});
    setFailed(undefined);
    const form = event.currentTarget as HTMLFormElement;
    try {
      await onSend();
    } catch (error) {
      const found = wrongsOf(error);
      setWrongs(found);
      // After the fields say what is wrong with them: what stands beside each is not said again.
      setTimeout(() => {
        const marked = form.querySelectorAll<HTMLElement>('[aria-invalid="true"], [data-wrong]');
        const allMarked = marked.length > 0 && marked.length >= Object.keys(found).length;
        setFailed(allMarked ? say('parts.somethingWrong') : messageOf(error));
        const [first] = marked;
        (first?.matches('[data-wrong]') ? first.querySelector<HTMLElement>('input') : first)?.focus();
      });
    } finally {
      setBusy(false);
    }
  };
  return (
    <form class="form" aria-label={label} noValidate onSubmit={(event) => void submit(event)}>
      {children(wrongs)}
      {failed === undefined ? null : (
        <Notice kind="refusal" title={say('parts.refusedTitle')}>
          <p>{failed}</p>
        </Notice>
      )}
      <div class="buttons">
        <Button type="submit" busy={busy}>
          {send}
        </Button>
        {beside}
      </div>
    </form>
  );
}

/** In words, for whoever filled it in. */
export function messageOf(error: unknown): string {
  if (error instanceof NoNetwork) return say('app.noNetworkEver');
  return error instanceof Error ? error.message : String(error);
}

function wrongsOf(error: unknown): Wrongs {
  if (error instanceof NotAsExpected) return error.wrongs;
  if (!(error instanceof Refusal)) return {};
  return Object.fromEntries(error.errors.map((wrong) => [placeOf(wrong), wrong.detail]));
}

const placeOf = ({ pointer, parameter }: Wrong): string => parameter ?? (pointer ?? '').replace(/^#\/?/, '');
