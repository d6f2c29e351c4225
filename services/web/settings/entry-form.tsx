/** A form that changes one entry of a site description, says by whom, and tells what follows. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { Refusal } from '../api/client.js';
import type { Changed } from '../api/types/site.js';
import { TextField } from '../parts/field.js';
import { expectAll, Form, NotAsExpected, type Wrongs } from '../parts/form.js';
import { rememberPerson, usePerson } from '../parts/person.js';
import { Stale } from '../parts/stale.js';
import { say } from '../words/say.js';
import { Follows } from './follows.js';

interface EntryFormParts<Content> {
  readonly label: string;
  readonly send: string;
  /** Asked before it is sent. */
  readonly sure?: string | undefined;
  /** Throws NotAsExpected where the page itself sees that something is not. */
  readonly check?: (() => unknown) | undefined;
  /** Sends what was typed in the name of whoever typed it. Rejects as `Form` wants it. */
  readonly onSend: (by: string) => Promise<Changed<Content>>;
  readonly onSaved?: (changed: Changed<Content>) => void;
  /** Reads anew what stands by now; what was typed is given up. */
  readonly onReadAgain: () => void;
  readonly children: (wrongs: Wrongs) => ComponentChildren;
}

const nothing = (): void => undefined;

/** @throws NotAsExpected for a name that is not there */
export function requireName(by: string): void {
  if (by.trim() === '') throw new NotAsExpected({ by: say('settings.byMissing') });
}

export function EntryForm<Content>(parts: EntryFormParts<Content>) {
  const { label, send, sure, check = nothing, onSend, onSaved, onReadAgain, children } = parts;
  const [by, setBy] = usePerson();
  const [saved, setSaved] = useState<Changed<Content>>();
  const [isStale, setStale] = useState(false);
  const submit = async (): Promise<void> => {
    setSaved(undefined);
    setStale(false);
    expectAll(check, () => requireName(by));
    try {
      const changed = await onSend(by.trim());
      rememberPerson(by);
      setSaved(changed);
      onSaved?.(changed);
    } catch (error) {
      setStale(error instanceof Refusal && error.status === 412);
      throw error;
    }
  };
  return (
    <>
      <Form label={label} send={send} sure={sure} onSend={submit}>
        {(wrongs) => (
          <>
            {children(wrongs)}
            <TextField
              label={say('settings.by')}
              hint={say('settings.byHint')}
              value={by}
              onChange={setBy}
              wrong={wrongs['by']}
              required
              autocomplete="name"
            />
          </>
        )}
      </Form>
      {isStale ? <Stale onReadAgain={onReadAgain} /> : null}
      <Follows saved={saved} />
    </>
  );
}
