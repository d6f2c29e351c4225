/**
 * What happens around the commit of a batch: counting it, waking what follows, and looking for site descriptions
 * loaded meanwhile.
 */
import type { Metrics } from '../http/index.js';
import type { Incoming } from '../intake/index.js';
import type { Log } from '../log.js';
import { adoptSome } from './adopt.js';
import type { CatchUp } from './catch-up.js';
import type { Directory } from './directory.js';
import type { Station } from './station.js';
import type { TakeIn, Taken } from './take-in.js';
import type { Telling } from './telling.js';

export interface IngestParts {
  readonly station: Station;
  readonly takeIn: TakeIn;
  readonly catchUp: CatchUp;
  readonly telling: Telling;
  readonly metrics: Metrics;
  readonly log: Log;
}

export class Ingest {
  readonly #parts: IngestParts;
  #adopting = true;
  /** The sites as they stood at the last look; whoever takes a batch or a change in may take in others by then. */
  #seen: Directory | undefined;
  #newestArrivalAt: number | null = null;

  constructor(parts: IngestParts) {
    this.#parts = parts;
  }

  /** Commits a batch and sees to what follows; throws where the store fails. */
  commit(batch: readonly Incoming[]): void {
    const { takeIn, metrics, telling, catchUp } = this.#parts;
    const stop = metrics.commitSeconds.startTimer();
    const taken = takeIn.commit(batch);
    stop();
    this.#count(taken);
    this.#newestArrivalAt = batch.at(-1)?.receivedAt ?? this.#newestArrivalAt;
    telling.wake();
    catchUp.kick();
  }

  /** When the last message came, wall clock, ms; null before the first since the start. */
  get newestArrivalAt(): number | null {
    return this.#newestArrivalAt;
  }

  /** Takes in site descriptions loaded by another process, and readings of probes that they adopt. */
  refresh(): void {
    const { station, takeIn, telling, catchUp, log } = this.#parts;
    try {
      if (station.outdated) station.inTransaction(() => undefined);
      if (station.directory !== this.#seen) {
        this.#seen = station.directory;
        telling.showAll();
        this.#adopting = true;
      }
      if (this.#adopting) {
        this.#adopting = adoptSome(station, takeIn, Date.now());
        takeIn.recountApart();
        if (this.#adopting) setImmediate(() => this.refresh());
      }
      telling.wake();
      catchUp.kick();
    } catch (error) {
      log(`site descriptions cannot be taken in: ${String(error)}`, 'sites');
    }
  }

  /** Whether nothing waits to be judged or adopted. */
  get idle(): boolean {
    return !this.#adopting && this.#parts.station.dirty().length === 0;
  }

  #count(taken: Taken): void {
    const { metrics, log } = this.#parts;
    metrics.commits.inc();
    metrics.messagesReceived.inc(taken.messages);
    metrics.readingsKept.inc(taken.kept);
    metrics.duplicates.inc(taken.duplicates);
    metrics.unknownProbeReadings.inc(taken.apart);
    if (taken.apart > 0)
      log(
        'readings of probes that no site description knows are kept apart: see /api/probes/unknown',
        'apart',
      );
    for (const [reason, count] of taken.setAside) {
      metrics.setAside.inc({ reason }, count);
      log(`${count} set aside as ${reason}: see /api/quarantine`, reason);
    }
  }
}
