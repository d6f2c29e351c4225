/**
 * Log lines for people on standard error: the same thing at most once a minute, with how often it was left out.
 */

/** Least time between two lines of one kind, ms. */
const REPEAT_AFTER_ms = 60_000;

/** Kinds kept in mind; beyond it the oldest is forgotten. */
const MOST_KINDS = 1_000;

export type Log = (line: string, kind?: string) => void;

/**
 * @param write takes one line without its end
 * @param now a clock, ms
 */
export function createLog(write: (line: string) => void, now: () => number): Log {
  const kinds = new Map<string, { at: number; left: number }>();
  return (line, kind) => {
    if (kind === undefined) return write(line);
    const before = kinds.get(kind);
    if (before && now() - before.at < REPEAT_AFTER_ms) {
      before.left += 1;
      return;
    }
    const left = before?.left ?? 0;
    kinds.delete(kind);
    kinds.set(kind, { at: now(), left: 0 });
    const [oldest] = kinds.keys();
    if (kinds.size > MOST_KINDS && oldest !== undefined) kinds.delete(oldest);
    write(left > 0 ? `${line} (and ${left} more like it)` : line);
  };
}
