/** A value outside the page's parts, as it changes. */
import { useEffect, useState } from 'preact/hooks';
import type { Changes } from './changes.js';

/**
 * @param now gives the value as it is; it is asked again once the changes are heard, since it may have changed after
 *   the first drawing
 */
export function useHeard<Value>(changes: Pick<Changes<Value>, 'hear'>, now: () => Value): Value {
  // Kept in a box: a value that is itself a function would be called.
  const [{ value }, set] = useState(() => ({ value: now() }));
  useEffect(() => {
    const heard = (next: Value): void =>
      set((before) => (Object.is(before.value, next) ? before : { value: next }));
    heard(now());
    return changes.hear(heard);
  }, [changes]);
  return value;
}
