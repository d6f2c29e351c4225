import type { ComponentChildren } from 'preact';
import { useRef, useState } from 'preact/hooks';
import { useMayOpen } from '../access/may.js';
import { say } from '../words/say.js';

interface ButtonParts {
  readonly children: ComponentChildren;
  /** While it runs the button says so and cannot be pressed again. */
  readonly onPress?: () => unknown;
  readonly kind?: 'main' | 'quiet';
  readonly type?: 'button' | 'submit';
  /** What it does, for those who hear it, where its text alone does not say so. */
  readonly label?: string;
  /** Said while it runs. */
  readonly busy?: boolean;
  readonly disabled?: boolean;
  readonly pressed?: boolean;
}

/** A button that cannot be pressed twice: while what it began is running it says so. */
export function Button(parts: ButtonParts) {
  const { children, onPress, kind = 'main', type = 'button', label, disabled = false, pressed } = parts;
  const [running, setRunning] = useState(false);
  const isThere = useRef(true);
  const busy = running || parts.busy === true;
  const press = async (): Promise<void> => {
    if (busy || disabled || !onPress) return;
    setRunning(true);
    try {
      await onPress();
    } finally {
      if (isThere.current) setRunning(false);
    }
  };
  return (
    <button
      type={type}
      class="button"
      data-kind={kind}
      aria-label={label}
      aria-disabled={busy || disabled}
      aria-pressed={pressed}
      onClick={(event) => {
        if (busy || disabled) event.preventDefault();
        else void press();
      }}
    >
      {busy ? say('parts.busy') : children}
    </button>
  );
}

/** A link that looks like a button: it leads somewhere, and is not there for whoever may do nothing there. */
export function ButtonLink(parts: { href: string; children: ComponentChildren; kind?: 'main' | 'quiet' }) {
  if (!useMayOpen()(parts.href)) return null;
  return (
    <a class="button" data-kind={parts.kind ?? 'main'} href={parts.href}>
      {parts.children}
    </a>
  );
}
