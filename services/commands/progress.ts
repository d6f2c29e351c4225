/** A line that is written over itself on a terminal, and now and then as a line of its own elsewhere. */

/** Least time between two lines where they cannot be written over, ms. */
const LINE_EVERY_ms = 5_000;

export interface Progress {
  show(text: string): void;
  /** Takes the line away, so that something else can be written. */
  clear(): void;
}

/**
 * @param stream standard error
 * @param now a clock, ms
 */
export function createProgress(stream: NodeJS.WriteStream, now: () => number): Progress {
  let shown = false;
  let writtenAt = Number.NEGATIVE_INFINITY;
  return {
    show(text) {
      if (stream.isTTY) {
        stream.write(`\r\x1b[2K${text}`);
        shown = true;
      } else if (now() - writtenAt >= LINE_EVERY_ms) {
        stream.write(`${text}\n`);
        writtenAt = now();
      }
    },
    clear() {
      if (shown) stream.write('\r\x1b[2K');
      shown = false;
    },
  };
}
