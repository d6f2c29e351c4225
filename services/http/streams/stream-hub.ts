/** All readers of the stream: how many there may be, what they are sent, and their end. */
import type { Readable } from 'node:stream';
import type { LivePorts } from '../ports-live.js';
import { EventLog } from './event-log.js';
import { HEARTBEAT, retryText } from './event-text.js';
import { OpenStream } from './open-stream.js';

export interface StreamLimits {
  /** Streams open at once. */
  readonly open: number;
  /** What a reader may leave untaken, bytes. */
  readonly backlog_bytes: number;
  /** Between two signs of life, ms. */
  readonly heartbeat_ms: number;
  /** After how long a reader asks again, ms. */
  readonly retry_ms: number;
  /** Longest life of one stream, ms. */
  readonly life_ms: number;
  /** For a reader to take what was sent when the service stops, ms. */
  readonly grace_ms: number;
  /** Events that are kept for readers who were away for a moment. */
  readonly kept: number;
}

export class StreamHub {
  readonly #live: LivePorts;
  readonly #limits: StreamLimits;
  readonly #log: EventLog;
  /** With the time at which each is to end, by a clock that only goes forward, ms, and whether its reader may still listen. */
  readonly #open = new Map<OpenStream, { readonly endAt: number; readonly holds: () => boolean }>();
  readonly #stopListening: () => void;
  readonly #heartbeat: NodeJS.Timeout;
  #stopped = false;

  /** @param run tells this run of the service from others */
  constructor(live: LivePorts, limits: StreamLimits, run: string) {
    this.#live = live;
    this.#limits = limits;
    this.#log = new EventLog(run, limits.kept);
    this.#stopListening = live.listen((events) => {
      const text = events.map((event) => this.#log.add(event)).join('');
      for (const stream of this.#open.keys()) stream.send(text);
    });
    this.#heartbeat = setInterval(() => this.#beat(), limits.heartbeat_ms);
  }

  /**
   * Opens a stream for one reader.
   *
   * @param lastId of the last event that the reader heard; undefined where it heard none
   * @param cut closes its socket
   * @param holds whether the reader may still listen: asked at every sign of life
   * @returns undefined where as many are open as may be
   */
  open(lastId: string | undefined, cut: () => void, holds: () => boolean = () => true): Readable | undefined {
    const { open, backlog_bytes, retry_ms, life_ms } = this.#limits;
    if (this.#stopped || this.#open.size >= open) {
      this.#live.refused();
      return undefined;
    }
    const stream: OpenStream = new OpenStream({
      ...{ backlog_bytes, cut },
      onEnd: (why) => {
        this.#open.delete(stream);
        this.#live.ended(why);
      },
    });
    this.#open.set(stream, { endAt: performance.now() + life_ms, holds });
    this.#live.opened();
    stream.send(retryText(retry_ms) + (lastId === undefined ? '' : this.#log.after(lastId)));
    return stream.readable;
  }

  /** Ends every stream, and opens no other. */
  stop(): void {
    this.#stopped = true;
    clearInterval(this.#heartbeat);
    this.#stopListening();
    const open = [...this.#open.keys()];
    for (const stream of open) stream.end('stopped');
    // A socket whose reader takes nothing would hold up the stop.
    setTimeout(() => {
      for (const stream of open) stream.cut();
    }, this.#limits.grace_ms).unref();
  }

  #beat(): void {
    for (const [stream, { endAt, holds }] of this.#open)
      if (performance.now() >= endAt || !holds()) stream.end('old');
      else stream.send(HEARTBEAT);
  }
}
