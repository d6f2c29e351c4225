/**
 * Puts the parts together, starts them in order and stops them in the reverse order.
 */
import type { Server as HttpsServer } from 'node:https';
import {
  ARCHIVE_SCHEMA,
  createArchive,
  endedUncleanly,
  lockDirectory,
  openDatabase,
} from './archive/index.js';
import { DAY_ms } from './core/model/time.js';
import { sandWatch } from './core/watch/sand-watch.js';
import { buildApp, builtPage, createMetrics, type Health, listen, type MadeUp } from './http/index.js';
import { Collector, type Incoming, MESSAGE_LIMITS, readMessage } from './intake/index.js';
import { accessFacts, firstLink, openAccess } from './joining/access/open.js';
import { AlarmKeeper } from './joining/alarm-keeper.js';
import { AnswerDesk } from './joining/answer-desk.js';
import { AnswerLinks } from './joining/answer-links.js';
import { type Broker, openBroker } from './joining/broker.js';
import { CatchUp } from './joining/catch-up.js';
import { CoverageDesk } from './joining/coverage-desk.js';
import { DrillDesk } from './joining/drill-desk.js';
import { createHealth } from './joining/health.js';
import { createPorts } from './joining/http-ports.js';
import { Ingest } from './joining/ingest.js';
import { LiveNews } from './joining/live-news.js';
import { LongArchive } from './joining/long-archive.js';
import { OlderReadings } from './joining/older-readings.js';
import { createPeoplePorts } from './joining/people-ports.js';
import { PlanDesk } from './joining/plan-desk.js';
import { damageInWords, SelfWatch } from './joining/self-watch.js';
import { Records } from './joining/sharing/records.js';
import { Station } from './joining/station.js';
import { TakeIn } from './joining/take-in.js';
import { Telling } from './joining/telling.js';
import { openTls } from './joining/tls-files.js';
import { createViews } from './joining/views.js';
import { openWays } from './joining/ways.js';
import type { Log } from './log.js';
import { VERSION } from './program.js';
import { createRegistry, REGISTRY_SCHEMA } from './registry/index.js';
import type { ServeSettings } from './settings.js';

export interface ServeOptions {
  readonly settings: ServeSettings;
  /** What people are told on the console: one line for each event of an alarm. */
  readonly tellConsole: (line: string) => void;
  readonly log: Log;
  /** Where what it takes in is a made-up season: from when to when, ms. The page says so. */
  readonly madeUp?: MadeUp | undefined;
}

export interface Service {
  /** Where it listens: `http://127.0.0.1:8080`. */
  readonly httpUrl: string;
  /** Where probes reach it: `mqtt://127.0.0.1:1883`. */
  readonly brokerUrl: string;
  readonly station: Station;
  health(): Health;
  /** Where the first steward signs in, once; undefined where there is a steward. */
  readonly firstLink: string | undefined;
  /** Whether everything taken in has been judged and told. */
  settled(): boolean;
  /** Commits and acknowledges what is in flight, then stops. */
  close(): Promise<void>;
}

/**
 * Starts a service.
 *
 * @throws SandlarderError STORE_UNAVAILABLE, CONFLICT, LISTEN_REFUSED: nothing is left running then
 */
export async function serve(options: ServeOptions): Promise<Service> {
  const closing: Closing = [];
  const close = async (): Promise<void> => {
    for (const step of closing.splice(0).reverse()) await step();
  };
  try {
    return { ...(await start(options, closing)), close };
  } catch (error) {
    await close();
    throw damageInWords(error, options.settings.data);
  }
}

/** What must be undone at the end, the last first. */
type Closing = (() => unknown)[];

async function start(options: ServeOptions, closing: Closing): Promise<Omit<Service, 'close'>> {
  const { settings, log } = options;
  const { behindProxy, plainPasswords } = settings.transport;
  const tls = settings.transport.tls && openTls(settings.transport.tls, log);
  if (tls) closing.push(every(TLS_LOOK_ms, () => tls.look()));
  const core = openCore(options, closing);
  const longArchive = openLongArchive(options, core, closing);
  const { station, telling, ingest, registry, self } = core;
  const collector = new Collector({
    commit: (batch) => ingest.commit(batch),
    onFailure: (error) => log(`readings cannot be stored: ${String(error)}`, 'store'),
  });
  ingest.refresh();
  self.begin(core.unclean);
  closing.push(() => self.close());
  const onConnected = (): void => telling.connected();
  const broker: Broker = await openBroker({
    ...{ settings, sink: collector, registry, log, metrics: core.metrics, tls, onConnected },
  });
  closing.push(() => broker.close());
  closing.push(every(LOOK_ms, () => broker.look()));
  closing.push(() => collector.close());
  telling.open(
    (message) => broker.publish(message),
    () => broker.connected(),
  );
  closing.push(() => telling.close());
  core.records.open(broker);
  closing.push(() => core.records.close());
  closing.push(
    every(LOOK_ms, () => {
      ingest.refresh();
      self.look(core);
      core.records.look();
    }),
  );
  const older = openOlder(options, core, closing);
  const startedAt = Date.now();
  const health = createHealth({
    ...{ longArchive, older, station, collector, broker, registry },
    version: VERSION,
    startedAt,
    now: Date.now,
    newestArrivalAt: () => self.clock.counted(ingest.newestArrivalAt ?? startedAt),
    ...{ store: self.store, clockProblems: () => self.clock.problems() },
    tellingProblems: () => [...telling.problems(), ...core.records.problems()],
  });
  const desk = new CoverageDesk();
  closing.push(() => desk.close());
  const plans = new PlanDesk();
  closing.push(() => plans.close());
  const onStop = (who: string): void => log(`${who} asked that messages stop`, `stop ${who}`);
  const answers = new AnswerDesk(station, createViews(station, desk, Date.now), Date.now, onStop);
  core.hearing.answers = answers;
  const people = createPeoplePorts({ ...core, answers, gateway: settings.gateway, now: Date.now });
  const live = new LiveNews({
    ...{ changes: station.changes, metrics: core.metrics, problems: () => health().problems },
    ...{ clock: () => performance.now(), after: timer },
  });
  closing.push(() => live.close());
  const signing = openAccess({ settings, ...core });
  const access = accessFacts(settings, signing, core);
  const desks = { desk, plans, people, live, access, signing: signing.ports };
  const app = await buildApp(
    createPorts({ ...core, ...desks, reader: longArchive?.reader, health, now: Date.now }),
    {
      ...{ credentials: settings.httpCredentials, tls: tls?.pair, behindProxy, plainPasswords },
      ...{ page: builtPage(PAGE), madeUp: options.madeUp },
      report: (error, where) => {
        self.noticed(error);
        log(`${where}: ${String(error)}`, where);
      },
    },
  );
  closing.push(() => app.close());
  tls?.onNew((pair) => (app.server as HttpsServer).setSecureContext(pair));
  const httpUrl = await listen(app, settings.listen);
  return {
    ...{ httpUrl, firstLink: firstLink(signing, settings, httpUrl) },
    brokerUrl: broker.url,
    ...{ station, health },
    settled: () => collector.counts.waiting === 0 && ingest.idle && telling.idle,
  };
}

/** From now on what is kept is noted for it; without one nothing more is. */
function openLongArchive(
  { settings: { influx: address }, log }: ServeOptions,
  { database, archive, metrics }: ReturnType<typeof openCore>,
  closing: Closing,
): LongArchive | undefined {
  archive.spool.setActive(address !== undefined);
  if (address === undefined) return undefined;
  const parts = { address, database, archive, metrics, log, after: timer, now: Date.now };
  const longArchive = new LongArchive(parts);
  closing.push(() => longArchive.close());
  return longArchive;
}

/** Begins once it is known whether there is a long archive: what waits for it stays. */
function openOlder(
  { settings: { keep_days }, log }: ServeOptions,
  { station }: ReturnType<typeof openCore>,
  closing: Closing,
): OlderReadings {
  const older = new OlderReadings(station, {
    ...{ keep_ms: keep_days * DAY_ms, now: Date.now, clock: () => performance.now(), after: timer },
    onError: (error) => log(`older readings cannot be put into their hours: ${String(error)}`, 'older'),
  });
  closing.push(() => older.close());
  older.open();
  return older;
}

/** Everything between the broker and the HTTP edge. */
function openCore({ settings, tellConsole, log }: ServeOptions, closing: Closing) {
  closing.push(lockDirectory(settings.data));
  const unclean = endedUncleanly(settings.data);
  const database = openDatabase(settings.data, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  closing.push(() => database.close());
  database.pragma(`busy_timeout = ${BUSY_ms}`);
  const archive = createArchive(database);
  const registry = createRegistry(database);
  const metrics = createMetrics(VERSION);
  const hearing: { answers?: AnswerDesk } = {};
  const self = new SelfWatch({ directory: settings.data, own: registry.own, log });
  const links =
    settings.publicUrl === undefined ? undefined : new AnswerLinks(registry, settings.publicUrl, Date.now);
  const ways = openWays(settings, {
    log,
    onSms: async ({ from, text, sentAt }) => {
      // Until the station stands the modem keeps it and gives it again.
      if (!hearing.answers) throw new Error('not ready yet');
      hearing.answers.take({
        id: `sms/${from}/${sentAt ?? Date.now()}/${text}`,
        via: 'sms',
        sender: from,
        text,
      });
      telling.plan();
    },
    // A report is of a message of before, which the station has sent: it stands by then.
    onReport: (report) => telling.reported(report),
  });
  const drills = new DrillDesk(registry, {
    ...{ now: Date.now, hasWay: (via) => ways.has(via), webhooks: settings.webhooks },
  });
  closing.push(() => ways.close());
  const telling = new Telling(registry, {
    tellConsole,
    log,
    metrics,
    station: () => station,
    ...{ ways, links, drills, counted: (time) => self.clock.counted(time) },
  });
  const alarms = new AlarmKeeper(registry, {
    webhooks: settings.webhooks,
    now: Date.now,
    onChange: (bed, alarms) => {
      telling.changed(bed);
      station.changes.alarms(bed.bed.id, alarms);
    },
    onRaised: ({ kind, action }) => metrics.alarmsRaised.inc({ kind, action }),
    onUnusable: (who, via, reason) => log(`${who} cannot be told by ${via}: ${reason}`, `${who}/${via}`),
  });
  const station: Station = new Station({
    ...{ database, archive, registry, watch: sandWatch, alarms, store: self.store },
  });
  const records = new Records(settings, station, log);
  const read = (incoming: Incoming) => readMessage(incoming, self.limits(MESSAGE_LIMITS));
  const takeIn = new TakeIn(station, read, records.in);
  const catchUp = new CatchUp(station, {
    clock: () => performance.now(),
    after: timer,
    onError: (error) => log(`judging again failed: ${String(error)}`, 'judging'),
    onDone: () => telling.wake(),
  });
  closing.push(() => catchUp.close());
  const ingest = new Ingest({ station, takeIn, catchUp, telling, metrics, log });
  return {
    ...{ database, archive, station, registry, metrics, telling, catchUp, ingest, hearing, links },
    ...{ drills, ways, self, unclean, records },
  };
}

/** Where the page is built, beside the built service. */
const PAGE = new URL('../web', import.meta.url).pathname;

/** How long everything stands still while another program writes, ms; then what failed is tried again, with pauses. */
const BUSY_ms = 1_000;

/** How often it looks for a renewed certificate, ms. */
const TLS_LOOK_ms = 5_000;

/** How often a running service looks for site descriptions and secrets that another process changed, ms. */
const LOOK_ms = 1_000;

function timer(delay_ms: number, call: () => void): () => void {
  const handle = setTimeout(call, delay_ms);
  return () => clearTimeout(handle);
}

function every(period_ms: number, call: () => void): () => void {
  const handle = setInterval(call, period_ms);
  return () => clearInterval(handle);
}
