/** One reader of the stream. What it has not taken yet is held in memory, up to a bound. */
import { Readable } from 'node:stream';
import type { StreamEnd } from '../ports-live.js';

export interface StreamParts {
  /** What the reader may leave untaken, bytes. */
  readonly backlog_bytes: number;
  /** Closes its socket, whatever is still on the way. */
  readonly cut: () => void;
  /** Called once, when it has ended. */
  readonly onEnd: (why: StreamEnd) => void;
}

export class OpenStream {
  readonly readable = new Readable({ read: () => undefined });
  readonly #parts: StreamParts;
  #why: StreamEnd | undefined;

  constructor(parts: StreamParts) {
    this.#parts = parts;
    this.readable.once('close', () => parts.onEnd(this.#why ?? 'left'));
  }

  /** A reader that does not keep up is sent away: it asks again, and hears that it missed something. */
  send(text: string): void {
    if (this.#why !== undefined || this.readable.destroyed) return;
    const backlog_bytes = this.readable.readableLength + Buffer.byteLength(text);
    if (backlog_bytes <= this.#parts.backlog_bytes) this.readable.push(text);
    else {
      this.#why = 'slow';
      this.readable.destroy();
      this.#parts.cut();
    }
  }

  /** Ends it after what was sent already. */
  end(why: StreamEnd): void {
    if (this.#why !== undefined || this.readable.destroyed) return;
    this.#why = why;
    this.readable.push(null);
  }

  /** Ends it whether or not its reader takes what was sent. */
  cut(): void {
    this.readable.destroy();
    this.#parts.cut();
  }
}
