/**
 * Joins alarms at rest with the ways of telling: the outbox's runner and the lamps.
 */
import type { Alarm } from '../core/model/alarm.js';
import { MINUTE_ms } from '../core/model/time.js';
import type { Metrics } from '../http/index.js';
import type { Log } from '../log.js';
import type { Registry } from '../registry/index.js';
import {
  createConsole,
  Lamp,
  type OutboxEvent,
  OutboxRunner,
  type Publication,
  wallTimer,
} from '../senders/index.js';
import { asAlarm } from './alarm-keeper.js';
import type { AnswerLinks } from './answer-links.js';
import { deadAddressProblems } from './dead-addresses.js';
import { type DeliveryReport, noteReport } from './delivery-reports.js';
import type { KnownBed } from './directory.js';
import type { DrillDesk } from './drill-desk.js';
import { DutyDesk } from './duty-desk.js';
import type { Station } from './station.js';
import type { Ways } from './ways.js';

export interface TellingOptions {
  readonly tellConsole: (line: string) => void;
  readonly log: Log;
  readonly metrics: Metrics;
  /** Asked only after the start. */
  readonly station: () => Station;
  readonly ways: Ways;
  readonly drills: DrillDesk;
  /** Absent where the service has no address for people. */
  readonly links?: AnswerLinks | undefined;
  /** What a time of the wall clock as it stood is by that of now, ms. */
  readonly counted?: ((time: number) => number) | undefined;
}

/** Longest time until people are planned for again, ms: a clock may be set meanwhile. */
const LOOK_ms = 15 * MINUTE_ms;

export class Telling {
  readonly #registry: Registry;
  readonly #options: TellingOptions;
  readonly #runner: OutboxRunner;
  readonly #duty: DutyDesk;
  #unreachable: readonly string[] = [];
  #cancelPlan: () => void = () => undefined;
  #open = false;
  #lamp: Lamp | undefined;
  readonly #changed = new Set<string>();

  constructor(registry: Registry, options: TellingOptions) {
    this.#registry = registry;
    this.#options = options;
    const zones = (site: string): string | undefined =>
      [...options.station().directory.beds.values()].find((known) => known.site.id === site)?.site.timezone;
    this.#runner = new OutboxRunner({
      outbox: registry.outbox,
      ways: [createConsole({ write: options.tellConsole, timeZoneOf: zones }), ...options.ways.ways],
      timer: wallTimer,
      random: Math.random,
      log: (event) => this.#logEvent(event),
    });
    this.#duty = new DutyDesk(registry, {
      now: Date.now,
      hasWay: (via) => options.ways.has(via),
      answers: (via) => options.ways.answers(via),
      linkFor: (alarm, person, message) => options.links?.make(alarm, person, message),
      onUnreachable: (site, alarms) => this.#noteUnreachable(site, alarms),
      ...(options.counted && { counted: options.counted }),
    });
  }

  /** In words: alarms that nobody can be told of, ways in trouble, and addresses at which nothing arrives. */
  problems(): string[] {
    const nobody = this.#unreachable.map((alarm) => `nobody can be told of alarm ${alarm}`);
    const dead = deadAddressProblems(this.#registry, Date.now());
    return [...this.#options.ways.problems(), ...dead, ...nobody];
  }

  #noteUnreachable(site: string, alarms: readonly string[]): void {
    const others = this.#unreachable.filter((alarm) => !alarm.startsWith(`${site}.`));
    this.#unreachable = [...others, ...alarms];
    for (const alarm of alarms) this.#options.log(`nobody can be told of alarm ${alarm}`, `nobody ${alarm}`);
  }

  /** What was written is sent now. */
  kick(): void {
    this.#runner.kick();
  }

  /** What the network says became of a short message; of one that was lost the next way is used now. */
  reported(report: DeliveryReport): void {
    const { station, log } = this.#options;
    station().inTransaction(() => noteReport(this.#registry, report, Date.now()));
    if (report.ok) return;
    log(`message ${report.key} did not reach its receiver`, 'outbox report');
    this.plan();
  }

  /** The wall clock was set: what waits goes on waiting as long as before. @param by forward where positive, ms */
  clockSet(by: number): void {
    this.#options.station().inTransaction(() => this.#registry.outbox.clockSet(by));
    this.#runner.clockSet(by);
    this.plan();
  }

  /** Plans who of the people is told now, and again when that asks for it. Lamps follow what was answered, or put off. */
  plan(): void {
    this.#cancelPlan();
    if (!this.#open) return;
    this.showAll();
    let next = Date.now() + LOOK_ms;
    try {
      const planned = this.#options.station().inTransaction(() => {
        this.#options.drills.startDue();
        return this.#duty.plan();
      });
      next = Math.min(next, planned ?? next);
    } catch (error) {
      this.#options.log(`people cannot be told: ${String(error)}`, 'duty');
    }
    this.#runner.kick();
    this.#cancelPlan = wallTimer.after(Math.max(1000, next - Date.now()), () => this.plan());
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
    this.#open = true;
    this.plan();
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
    this.#changed.clear();
    this.plan();
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
    this.#open = false;
    this.#cancelPlan();
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
    if (event.type === 'given-up') queueMicrotask(() => this.plan());
    const end = event.type === 'given-up' ? ', given up' : ', tried again later';
    log(`message ${event.key} not delivered${end}: ${event.error}`, `outbox ${event.via} ${event.type}`);
  }
}
