/** What is told once and never again: shown to be copied or written down, until whoever reads it has it. */
import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { Button } from '../parts/button.js';
import { Notice } from '../parts/notice.js';
import { say } from '../words/say.js';

interface OnceParts {
  readonly text: string;
  /** What goes with it, by its name. */
  readonly beside?: readonly (readonly [name: string, value: string])[];
  /** The name of the secret, where something goes with it. */
  readonly named?: string;
  readonly secret: string;
  readonly onHave: () => void;
  readonly children?: ComponentChildren;
}

export function Once({ text, beside = [], named, secret, onHave, children }: OnceParts) {
  const place = useRef<HTMLElement>(null);
  useEffect(() => place.current?.focus(), [secret]);
  return (
    <section class="once" aria-label={text} tabIndex={-1} ref={place}>
      <Notice kind="caution">
        <p>{text}</p>
        <dl>
          {[...beside, [named ?? say('access.secret'), secret] as const].map(([name, value]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>
                <code>{value}</code>
              </dd>
            </div>
          ))}
        </dl>
        {children}
        <div class="buttons">
          <Copy text={secret} />
          <Button kind="quiet" onPress={onHave}>
            {say('access.haveIt')}
          </Button>
        </div>
      </Notice>
    </section>
  );
}

/** Browsers copy for pages alone that came over HTTPS or from this machine. */
function Copy({ text }: { text: string }) {
  const [copied, setCopied] = useState<'done' | 'failed'>();
  if (navigator.clipboard === undefined) return null;
  const copy = (): Promise<void> =>
    navigator.clipboard.writeText(text).then(
      () => setCopied('done'),
      () => setCopied('failed'),
    );
  return (
    <>
      <Button onPress={copy}>{say('access.copy')}</Button>
      <span role="status">
        {copied === undefined ? '' : say(copied === 'done' ? 'access.copied' : 'access.notCopied')}
      </span>
    </>
  );
}
