/** What changes, as a test says that it does; and a reader of the stream over a real socket. */
import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import { onTestFinished } from 'vitest';
import type { LiveEvent, LivePorts, StreamEnd } from '../../services/http/ports.js';

/** Tells what a test tells it to, and counts. */
export class LiveInMemory implements LivePorts {
  readonly counted: { opened: number; refused: number; ended: StreamEnd[] } = {
    ...{ opened: 0, refused: 0, ended: [] },
  };
  readonly #heard = new Set<(events: readonly LiveEvent[]) => void>();

  listen(heard: (events: readonly LiveEvent[]) => void): () => void {
    this.#heard.add(heard);
    return () => this.#heard.delete(heard);
  }

  opened(): void {
    this.counted.opened += 1;
  }

  ended(why: StreamEnd): void {
    this.counted.ended.push(why);
  }

  refused(): void {
    this.counted.refused += 1;
  }

  /** Who listens just now. */
  get listeners(): number {
    return this.#heard.size;
  }

  tell(...events: readonly LiveEvent[]): void {
    for (const heard of this.#heard) heard(events);
  }
}

/** A reader that sends one request by hand and keeps what comes back. */
export interface Reader {
  readonly socket: Socket;
  /** All that came so far. */
  text(): string;
  /** Waits until the pattern has come; rejects where the socket closes first. */
  came(pattern: RegExp): Promise<RegExpExecArray>;
  /** Waits until the socket has closed. */
  readonly closed: Promise<unknown>;
}

/** @param headers lines of the request, without the line ends */
export function read(url: string, headers: readonly string[] = []): Reader {
  const { hostname, port } = new URL(url);
  const socket = connect(Number(port), hostname);
  onTestFinished(() => void socket.destroy());
  socket.on('error', () => undefined);
  let text = '';
  const closed = once(socket, 'close');
  socket.on('data', (chunk) => {
    text += chunk.toString();
    socket.emit('came');
  });
  socket.write(['GET /api/stream HTTP/1.1', 'Host: localhost', ...headers, '', ''].join('\r\n'));
  const came = async (pattern: RegExp): Promise<RegExpExecArray> => {
    for (;;) {
      const match = pattern.exec(text);
      if (match) return match;
      if (socket.destroyed) throw new Error(`closed before ${pattern}: ${text}`);
      await Promise.race([once(socket, 'came'), closed]);
    }
  };
  return { socket, text: () => text, came, closed };
}
