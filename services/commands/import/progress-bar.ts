/** How far a file has been read: a bar on a terminal, plain lines now and then elsewhere. */
import { Presets, SingleBar } from 'cli-progress';
import { createProgress } from '../progress.js';

/** A file that is read sooner needs no lines, ms. */
const QUIET_ms = 3_000;

export interface ReadProgress {
  /** @param bytes of the file so far */
  show(bytes: number, lines: number): void;
  end(): void;
}

/**
 * @param stream standard error
 * @param total bytes of the file
 * @param now a clock, ms
 */
export function readProgress(stream: NodeJS.WriteStream, total: number, now: () => number): ReadProgress {
  const percent = (bytes: number): number => Math.floor((100 * bytes) / Math.max(1, total));
  if (!stream.isTTY) {
    const plain = createProgress(stream, now);
    const began = now();
    return {
      show: (bytes, lines) => {
        if (now() - began >= QUIET_ms) plain.show(`${percent(bytes)} %, ${lines} lines`);
      },
      end: () => plain.clear(),
    };
  }
  const bar = new SingleBar(
    {
      stream,
      format: '{bar} {value} % | {lines} lines | {eta_formatted} left',
      hideCursor: true,
      clearOnComplete: true,
    },
    Presets.shades_classic,
  );
  bar.start(100, 0, { lines: 0 });
  return {
    show: (bytes, lines) => bar.update(percent(bytes), { lines }),
    end: () => bar.stop(),
  };
}
