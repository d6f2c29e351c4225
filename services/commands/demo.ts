/** `sandlarder demo`: a made-up site, its whole season, and what came of it, in one process. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { loadScenario, publish, type Scenario, siteOf, truthOf } from '../../simulator/index.js';
import { SandlarderError } from '../core/errors.js';
import { DAY_ms, MINUTE_ms } from '../core/model/time.js';
import { asAlarm } from '../joining/alarm-keeper.js';
import { loadSite } from '../load.js';
import { createLog, inWords } from '../log.js';
import { type ServeOptions, type Service, serve } from '../serve.js';
import { readServeSettings, type ServeSettings } from '../settings.js';
import { readNumber, readWhole } from './numbers.js';
import { createProgress, type Progress } from './progress.js';
import { seasonStart } from './season-start.js';
import { describeSummary, type Planted, summarise } from './season-summary.js';
import { untilStopped } from './until-stopped.js';

export interface DemoFlags {
  readonly listen: string;
  readonly mqttListen: string;
  readonly speed: string;
  readonly seed: string;
  readonly days: string;
  /** Stop once the season is over, without going on to serve the page. */
  readonly end?: boolean;
  readonly json?: boolean;
}

/** Alarms of a season, at the most. */
const MOST_ALARMS = 10_000;

/** Longest wait for the last readings to be judged and told, ms. */
const SETTLE_ms = 60_000;

export async function demo(flags: DemoFlags): Promise<void> {
  const speed = readNumber('--speed', flags.speed, 1, 1e9);
  const seed = readWhole('--seed', flags.seed, 0, 2 ** 32 - 1);
  const days = readWhole('--days', flags.days, 1, 365);
  const scenario = { ...loadScenario('demo-site'), days };
  const filledAt = seasonStart(Date.now(), days, scenario.site.timezone);
  const data = mkdtempSync(join(tmpdir(), 'sandlarder-demo-'));
  try {
    const settings = readServeSettings({ ...flags, data }, {});
    await runSeason({
      scenario,
      seed,
      speed,
      filledAt,
      settings,
      json: flags.json === true,
      end: flags.end === true,
    });
  } finally {
    rmSync(data, { recursive: true, force: true });
  }
}

interface DemoRun {
  readonly scenario: Scenario;
  readonly seed: number;
  readonly speed: number;
  readonly filledAt: number;
  readonly settings: ServeSettings;
  readonly json: boolean;
  readonly end: boolean;
}

async function runSeason(run: DemoRun): Promise<void> {
  const { scenario, filledAt, settings, json, end } = run;
  const progress = createProgress(process.stderr, () => performance.now());
  const say = (line: string): void => {
    progress.clear();
    (json ? process.stderr : process.stdout).write(`${line}\n`);
  };
  loadSite(settings.data, 'demo site', siteOf(scenario, filledAt), Date.now());
  const log = createLog((entry) => say(inWords(entry)), Date.now);
  const { timezone } = scenario.site;
  const madeUp = { from: filledAt, to: filledAt + scenario.days * DAY_ms, timezone };
  const service = await startAnywhere({ settings, tellConsole: say, log, madeUp });
  try {
    for (const line of introduction(run, service)) say(line);
    await publishSeason(run, service, progress);
    progress.clear();
    await settled(service);
    conclude(run, service, json, say);
    if (!end) await goOn(service, say);
  } finally {
    await service.close();
  }
}

/** The season is over, and its page is there to be looked at. */
async function goOn({ httpUrl }: Service, say: (line: string) => void): Promise<void> {
  const stopped = untilStopped();
  say(`The season is over. Its page stays at ${httpUrl} until you press Ctrl-C here.`);
  await stopped;
}

/** A busy port is no reason not to show the demo: another is taken. */
async function startAnywhere(options: ServeOptions): Promise<Service> {
  try {
    return await serve(options);
  } catch (error) {
    if (!(error instanceof SandlarderError && error.code === 'LISTEN_REFUSED')) throw error;
    const { settings } = options;
    return serve({ ...options, settings: { ...settings, listen: { ...settings.listen, port: 0 } } });
  }
}

function introduction({ scenario, speed, filledAt, seed }: DemoRun, service: Service): string[] {
  const beds = [...service.station.directory.beds.values()].map(({ bed }) => bed.name).join(', ');
  return [
    `A made-up site with ${beds}: ${scenario.days} days from ${new Date(filledAt).toISOString().slice(0, 10)}, in ${aboutHowLong((scenario.days * DAY_ms) / speed)} (seed ${seed}).`,
    `Simulated probes publish to ${service.brokerUrl}. The page is at ${service.httpUrl}. Alarms as they come:`,
    '',
  ];
}

/** Nobody waits by the second. @param time wall clock, ms */
export function aboutHowLong(time: number): string {
  const minutes = Math.round(time / MINUTE_ms);
  if (minutes < 1) return 'less than a minute';
  return minutes === 1 ? 'about a minute' : `about ${minutes} minutes`;
}

async function publishSeason(
  { scenario, seed, speed, filledAt }: DemoRun,
  service: Service,
  progress: Progress,
): Promise<void> {
  const stop = new AbortController();
  const onSignal = (): void => stop.abort();
  process.once('SIGINT', onSignal);
  try {
    await publish({
      brokerUrl: service.brokerUrl,
      scenario,
      seed,
      from: filledAt,
      speed,
      signal: stop.signal,
      onProgress: (time) => {
        const day = Math.floor((time - filledAt) / DAY_ms);
        progress.show(`${new Date(time).toISOString().slice(0, 10)}  day ${day} of ${scenario.days}`);
      },
    });
  } finally {
    process.removeListener('SIGINT', onSignal);
  }
  if (stop.signal.aborted) throw new SandlarderError('WRONG_USAGE', 'stopped before the season was over');
}

async function settled(service: Service): Promise<void> {
  const until = performance.now() + SETTLE_ms;
  while (!service.settled() && performance.now() < until) await wait(50);
}

function conclude(
  { scenario, seed, filledAt }: DemoRun,
  { station }: Service,
  json: boolean,
  say: (line: string) => void,
): void {
  const beds = station.directory.beds;
  const planted: Planted[] = truthOf(scenario, seed).flatMap((truth) =>
    truth.kind === 'rot' || truth.kind === 'leak'
      ? [{ bed: truth.bed, kind: truth.kind, startsAt: filledAt + truth.startDay * DAY_ms }]
      : [],
  );
  const alarms = station.registry.alarms.list({ limit: MOST_ALARMS }).rows.map(asAlarm);
  const summary = summarise(planted, [...beds.keys()], filledAt, alarms);
  if (json) {
    process.stdout.write(
      `${JSON.stringify({ filledAt: new Date(filledAt).toISOString(), ...summary, alarms })}\n`,
    );
    return;
  }
  say('');
  say('What was planted, and what was found:');
  for (const line of describeSummary(summary, filledAt, (bed) => beds.get(bed)?.bed.name ?? bed))
    say(`  ${line}`);
  say('A probe sees 20 to 30 cm around it at the best: the two-weekly look by hand stays.');
}
