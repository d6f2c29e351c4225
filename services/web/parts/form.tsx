/** A form that sends itself, and puts what the service found wrong beside the fields. Nothing that was typed is lost. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { NoNetwork, Refusal, type Wrong } from '../api/client.js';
import { say } from '../words/say.js';
import { Button } from './button.js';
import { FailedTurn } from './failed-turn.js';
import { type MarkedField, markedFields } from './marked.js';
import { NotAsExpected, type Wrongs } from './not-as-expected.js';
import { Notice } from './notice.js';
import { Question } from './question.js';

export { expectAll, NotAsExpected, type Wrongs } from './not-as-expected.js';

interface Failed {
  readonly text: string;
  readonly marked: readonly MarkedField[];
}

interface FormParts {
  /** Sends what was typed. Rejects with NotAsExpected, Refusal, NoNetwork. */
  readonly onSend: () => Promise<unknown>;
  readonly send: string;
  readonly label?: string;
  /** Asked before it is sent. */
  readonly sure?: string | undefined;
  readonly children: (wrongs: Wrongs) => ComponentChildren;
  /** Further buttons beside that which sends. */
  readonly beside?: ComponentChildren;
}

export function Form({ onSend, send, label, sure, children, beside }: FormParts) {
  const [busy, setBusy] = useState(false);
  const [asked, setAsked] = useState(false);
  const [wrongs, setWrongs] = useState<Wrongs>({});
  const [failed, setFailed] = useState<Failed>();
  const [turn, setTurn] = useState(0);
  const submit = async (event: Event): Promise<void> => {
    event.preventDefault();
    if (busy) return;
    if (sure !== undefined && !asked) return setAsked(true);
    setBusy(true);
    setWrongs({});
    setFailed(undefined);
    const form = event.currentTarget as HTMLFormElement;
    try {
      await onSend();
    } catch (error) {
      const found = wrongsOf(error);
      setWrongs(found);
      setTurn((before) => before + 1);
      // After the fields say what is wrong with them: what stands beside each is not said again.
      setTimeout(() => {
        const marked = markedFields(form);
        setFailed({ text: failedSaid(error, found, marked.length), marked });
        marked[0]?.lead();
      });
    } finally {
      setBusy(false);
      setAsked(false);
    }
  };
  // What was refused is no longer what stands there; fields that are still wrong stay named.
  const mended = (event: Event): void => {
    const form = event.currentTarget as HTMLFormElement;
    if (failed !== undefined) setTimeout(() => setFailed(stillWrong(markedFields(form))));
  };
  return (
    <form
      class="form"
      aria-label={label}
      noValidate
      onSubmit={(event) => void submit(event)}
      onInput={mended}
      onChange={mended}
    >
      <FailedTurn.Provider value={turn}>{children(wrongs)}</FailedTurn.Provider>
      {failed === undefined ? null : <FailedNotice failed={failed} />}
      {sure !== undefined && asked ? (
        <Question text={sure} yes={send} no={say('parts.leaveIt')} busy={busy} onNo={() => setAsked(false)} />
      ) : (
        <div class="buttons">
          <Button type="submit" busy={busy}>
            {send}
          </Button>
          {beside}
        </div>
      )}
    </form>
  );
}

const stillWrong = (marked: readonly MarkedField[]): Failed | undefined =>
  marked.length === 0 ? undefined : { text: say('parts.somethingWrong', { count: marked.length }), marked };

/** As many as are named; the number says how many there are. */
const NAMED_MOST = 8;

function FailedNotice({ failed: { text, marked } }: { failed: Failed }) {
  return (
    <Notice kind="refusal" title={say('parts.refusedTitle')}>
      <p>{text}</p>
      {marked.length === 0 ? null : (
        <ul class="marked">
          {marked.slice(0, NAMED_MOST).map(({ name, lead }, index) => (
            <li key={index}>
              <button type="button" class="as-link" onClick={lead}>
                {name}
              </button>
            </li>
          ))}
        </ul>
      )}
    </Notice>
  );
}

function failedSaid(error: unknown, found: Wrongs, marked: number): string {
  const allMarked = marked > 0 && marked >= Object.keys(found).length;
  return allMarked ? say('parts.somethingWrong', { count: marked }) : messageOf(error);
}

/** In words, for whoever filled it in. */
export function messageOf(error: unknown): string {
  if (error instanceof NoNetwork) return say('parts.noAnswer');
  return error instanceof Error ? error.message : String(error);
}

function wrongsOf(error: unknown): Wrongs {
  if (error instanceof NotAsExpected) return error.wrongs;
  if (!(error instanceof Refusal)) return {};
  return Object.fromEntries(error.errors.map((wrong) => [placeOf(wrong), wrong.detail]));
}

const placeOf = ({ pointer, parameter }: Wrong): string => parameter ?? (pointer ?? '').replace(/^#\/?/, '');
