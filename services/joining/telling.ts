/**
 * Joins alarms at rest with the ways of telling: the outbox's runner and the lamps.
 */
import type { Alarm } from '../core/model/alarm.js';
import type { Metrics } from '../http/index.js';
import type { Log } from '../log.js';
import type { Registry } from '../registry/index.js';
import {
  createConsole,
  createWebhook,
  Lamp,
  type OutboxEvent,
  OutboxRunner,
  type Publication,
  wallTimer,
} from '../senders/index.js';
import { asAlarm } from './alarm-keeper.js';
import type { KnownBed } from './directory.js';
import type { Station } from './station.js';

export interface TellingOptions {
  readonly tellConsole: (line: string) => void;
  readonly log: Log;
  readonly metrics: Metrics;
  /** Asked only after the start. */
  readonly station: () => Station;
}

export class Telling {
  readonly #registry: Registry;
  readonly #options: TellingOptions;
  readonly #runner: OutboxRunner;
  #lamp: Lamp | undefined;
  readonly #changed = new Set<string>();

  constructor(registry: Registry, options: TellingOptions) {
    this.#registry = registry;
    this.#options = options;
    const zones = (site: string): string | undefined =>
      [...options.station().directory.beds.values()].find((known) => known.site.id === site)?.site.timezone;
    this.#runner = new OutboxRunner({
      outbox: registry.outbox,
      ways: [createConsole({ write: options.tellConsole, timeZoneOf: zones }), createWebhook(wallTimer)],
      timer: wallTimer,
      random: Math.random,
      log: (event) => this.#logEvent(event),
    });
  }

  /** Begins to tell, lamps too. */
  open(publish: (publication: Publication) => Promise<void>, connected: () => boolean): void {
    const { log } = this.#options;
    this.#lamp = new Lamp({
      publish,
      timer: wallTimer,
      // Without a connection no lamp can be set, and all are as soon as there is one.
      log: ({ topic, error }) => {
        if (connected()) log(`lamp ${topic} cannot be set: ${error}`, `lamp ${topic}`);
      },
    });
    this.showAll();
    this.#runner.kick();
  }

  /** The broker's connection is new: lamps are set again. */
  connected(): void {
    this.#lamp?.refresh();
  }

  /** Takes note within a transaction that a bed's alarms changed; `wake` after the commit acts on it. */
  changed(known: KnownBed): void {
    this.#changed.add(known.bed.id);
  }

  /** Call after a commit. */
  wake(): void {
    if (this.#changed.size === 0) return;
    for (const bed of this.#changed) this.show(bed);
    this.#changed.clear();
    this.#runner.kick();
  }

  /** Sets a bed's lamp to its alarms at rest. */
  show(bed: string): void {
    const known = this.#options.station().directory.beds.get(bed);
    if (known) this.#lamp?.show(known.site.id, bed, this.#showable(bed));
  }

  /** What is shelved lights no lamp while that lasts. */
  #showable(bed: string): Alarm[] {
    const now = Date.now();
    return this.#registry.alarms
      .open(bed)
      .map((row) => asAlarm(row, now))
      .filter(({ state }) => state !== 'shelved');
  }

  showAll(): void {
    for (const bed of this.#options.station().directory.beds.keys()) this.show(bed);
  }

  /** Whether no message waits for its first attempt. */
  get idle(): boolean {
    return this.#changed.size === 0 && this.#registry.outbox.due(Date.now(), 1).length === 0;
  }

  async close(): Promise<void> {
    this.#lamp?.close();
    await this.#runner.close();
  }

  #logEvent(event: OutboxEvent): void {
    const { log, metrics } = this.#options;
    if (event.type === 'outbox-unavailable') {
      log(`outbox: ${event.error}`, 'outbox');
      return;
    }
    metrics.outboxSent.inc({ via: event.via, result: event.type });
    if (event.type === 'delivered') return;
    const end = event.type === 'given-up' ? ', given up' : ', tried again later';
    log(`message ${event.key} not delivered${end}: ${event.error}`, `outbox ${event.via}`);
  }
}
