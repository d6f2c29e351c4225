/** Tells those who listen what has changed, at most once a second, however many readings come in meanwhile. */
import type { LiveEvent, LivePorts, Metrics, StreamEnd } from '../http/index.js';
import type { Changed, Changes } from './changes.js';

/** Shortest time between two tellings, ms. */
const PACE_ms = 1_000;

/** How often the service looks whether it is well, ms. */
const HEALTH_ms = 10_000;

export interface NewsParts {
  readonly changes: Changes;
  /** In words: what is wrong; empty where nothing is. */
  readonly problems: () => readonly string[];
  readonly metrics: Metrics;
  /** A clock that only goes forward, ms. */
  readonly clock: () => number;
  readonly after: (delay_ms: number, call: () => void) => () => void;
}

type Heard = (events: readonly LiveEvent[]) => void;

export class LiveNews implements LivePorts {
  readonly #parts: NewsParts;
  readonly #listeners = new Set<Heard>();
  #cancel: (() => void) | undefined;
  #cancelHealth: () => void;
  #toldAt = Number.NEGATIVE_INFINITY;
  #problems: string;

  constructor(parts: NewsParts) {
    this.#parts = parts;
    this.#problems = JSON.stringify(parts.problems());
    // Nobody could have shown what was before.
    parts.changes.take();
    parts.changes.onNote(() => this.#plan());
    this.#cancelHealth = parts.after(HEALTH_ms, () => this.#lookAtHealth());
  }

  listen(heard: Heard): () => void {
    this.#listeners.add(heard);
    return () => this.#listeners.delete(heard);
  }

  opened(): void {
    this.#parts.metrics.streamsOpen.inc();
    this.#parts.metrics.streamsOpened.inc();
  }

  ended(why: StreamEnd): void {
    this.#parts.metrics.streamsOpen.dec();
    this.#parts.metrics.streamsEnded.inc({ why });
  }

  refused(): void {
    this.#parts.metrics.streamsRefused.inc();
  }

  close(): void {
    this.#parts.changes.onNote(() => undefined);
    this.#cancel?.();
    this.#cancelHealth();
    this.#listeners.clear();
  }

  #plan(): void {
    if (this.#cancel) return;
    const wait_ms = Math.max(0, this.#toldAt + PACE_ms - this.#parts.clock());
    this.#cancel = this.#parts.after(wait_ms, () => {
      this.#cancel = undefined;
      this.#toldAt = this.#parts.clock();
      this.#tell(eventsOf(this.#parts.changes.take()));
    });
  }

  #lookAtHealth(): void {
    const problems = this.#parts.problems();
    const text = JSON.stringify(problems);
    if (text !== this.#problems)
      this.#tell([{ event: 'health', data: { status: problems.length === 0 ? 'ok' : 'degraded' } }]);
    this.#problems = text;
    this.#cancelHealth = this.#parts.after(HEALTH_ms, () => this.#lookAtHealth());
  }

  #tell(events: readonly LiveEvent[]): void {
    if (events.length === 0) return;
    for (const heard of this.#listeners) heard(events);
  }
}

/** What weighs most first: whoever listens asks for it first. */
function eventsOf({ alarms, beds, readings, wholes }: Changed): LiveEvent[] {
  return [
    ...wholes.filter((whole) => whole === 'site').map((event) => ({ event, data: {} })),
    ...(alarms.beds.length > 0 ? [{ event: 'alarms' as const, data: alarms }] : []),
    ...(beds.length > 0 ? [{ event: 'beds' as const, data: { beds } }] : []),
    ...(readings.length > 0 ? [{ event: 'readings' as const, data: { beds: readings } }] : []),
    ...wholes.filter((whole) => whole !== 'site').map((event) => ({ event, data: {} })),
  ];
}
