/** What was typed or chosen on this device and stays on it: drafts, kept plans, own measures. */
import { useEffect, useState } from 'preact/hooks';
import { changes } from './changes.js';

const PREFIX = 'sandlarder.';

const keptChanged = changes<string>();

/** As it was kept; the fallback where nothing was, or where it can no longer be read. */
export function keptNow<Value>(name: string, fallback: Value): Value {
  try {
    const text = localStorage.getItem(PREFIX + name);
    return text === null ? fallback : (JSON.parse(text) as Value);
  } catch {
    return fallback;
  }
}

/**
 * Keeps a value; `undefined` takes it away.
 *
 * @returns false where the browser keeps nothing, or no more
 */
export function keep(name: string, value: unknown): boolean {
  try {
    if (value === undefined) localStorage.removeItem(PREFIX + name);
    else localStorage.setItem(PREFIX + name, JSON.stringify(value));
  } catch {
    return false;
  }
  keptChanged.tell(name);
  return true;
}

/** A value that is kept with every change, so that it outlives the page. */
export function useKept<Value>(
  name: string,
  fallback: Value,
): [value: Value, change: (value: Value | undefined) => void] {
  const [value, set] = useState(() => keptNow(name, fallback));
  useEffect(
    () =>
      keptChanged.hear((changed) => {
        if (changed === name) set(keptNow(name, fallback));
      }),
    [name],
  );
  return [
    value,
    (next) => {
      set(next ?? fallback);
      keep(name, next);
    },
  ];
}
