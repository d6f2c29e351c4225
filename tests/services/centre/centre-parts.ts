/** A centre of real parts: two Mosquittos with a bridge between them, an edge machine's service, workers that may be killed. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { bridge } from '../../../services/commands/bridge.js';
import type { CentreHealth, PlaceOfSite } from '../../../services/http/index.js';
import { loadSite } from '../../../services/load.js';
import { temporaryDirectory, type Undo } from '../../bench/processes.js';
import { type AtRest, atRest } from '../../faults/service.js';
import { type Running, startKept } from '../../support/kept-processes.js';
import type { Message, Season } from '../../support/season.js';
import { standStation } from '../../support/standing-station.js';
import { type Mosquitto, startMosquitto } from '../mosquitto.js';

export const GROUP = 'north';
export const PARTITIONS = 3;

/** The same season at another site, in a bed of another name. */
export function at({ site, messages }: Season, id: string): Season {
  const renamed = (text: string): string =>
    text.replaceAll('test-ridge', id).replaceAll('"pit-t"', `"pit-${id}"`);
  return {
    site: JSON.parse(renamed(JSON.stringify(site))),
    messages: messages.map(({ topic, payload }: Message) => ({ topic: renamed(topic), payload })),
  };
}

export interface Edge {
  readonly broker: Mosquitto;
  readonly directory: string;
  readonly http: string;
  readonly running: Running;
}

/** An edge machine with the bridges of its sites, written by the command. */
export async function startEdge(undo: Undo, sites: readonly unknown[], centre: Mosquitto): Promise<Edge> {
  const folder = temporaryDirectory(undo);
  const [directory, bridges] = [join(folder, 'data'), join(folder, 'bridges')];
  mkdirSync(bridges);
  for (const [index, site] of sites.entries()) {
    const file = join(folder, `site-${index}.json`);
    writeFileSync(file, JSON.stringify(site));
    loadSite(directory, file, site, Date.now());
    const to = join(bridges, `site-${index}.conf`);
    bridge(file, { centre: centre.url, share: GROUP, partitions: `${PARTITIONS}`, to }, () => undefined, {});
  }
  const broker = await startMosquitto({ include_dir: bridges });
  undo(() => broker.dispose());
  const flags = ['--data', directory, '--listen', '127.0.0.1:0', '--broker', broker.url, '--tell-centre'];
  const running = startKept(['serve', ...flags]);
  undo(() => running.kill());
  const [, http = ''] = await running.said(/questions at (\S+)\/api/);
  await running.said(/connected to the broker/);
  return { broker, directory, http, running };
}

export interface CentreWorker {
  readonly running: Running;
  readonly name: string;
  readonly http: string;
}

export async function startWorker(undo: Undo, directory: string, { url }: Mosquitto): Promise<CentreWorker> {
  const share = ['--share', GROUP, '--partitions', `${PARTITIONS}`, '--partitions-at', '127.0.0.1:0'];
  const flags = ['--data', directory, '--listen', '127.0.0.1:0', '--broker', url];
  const running = startKept(['serve', ...flags, ...share]);
  undo(() => running.kill());
  const [, name = '', http = ''] = await running.said(/ready: worker (\S+) of .* at (\S+)\/api\/health/);
  return { running, name, http };
}

/** Between looks, ms, and longest wait, ms. */
const LOOK_ms = 200;
const LONGEST_ms = 60_000;

export async function until<Seen>(
  what: string,
  look: () => Promise<Seen> | Seen,
  isSo: (seen: Seen) => boolean,
): Promise<Seen> {
  const latest = Date.now() + LONGEST_ms;
  for (;;) {
    const seen = await look();
    if (isSo(seen)) return seen;
    if (Date.now() > latest) throw new Error(`expected ${what}, got ${JSON.stringify(seen)}`);
    await wait(LOOK_ms);
  }
}

const asked = async <Answer>(url: string): Promise<Answer> => (await fetch(url)).json() as Promise<Answer>;

export const healthOf = ({ http }: Pick<CentreWorker, 'http'>) => asked<CentreHealth>(`${http}/api/health`);

export const placeOf = ({ http }: CentreWorker, site: string) =>
  asked<PlaceOfSite>(`${http}/api/sites/${site}`);

/** All partitions are held, each by one worker, and their sessions stand at the broker. */
export function whole(workers: readonly CentreWorker[]): Promise<unknown> {
  return until(
    'every partition to be held, and readings taken in',
    () => Promise.all(workers.map(healthOf)),
    (healths) => {
      const held = healths[0]?.workers.flatMap((one) => one.held).filter(({ url }) => url !== '') ?? [];
      return held.length === PARTITIONS && healths.every(({ accepting }) => accepting);
    },
  );
}

/** What is counted in a database, also while a service runs on it; 0 where there is none yet. */
export function counted(directory: string, table: string): number {
  try {
    const database = new Database(join(directory, 'sandlarder.db'), { readonly: true });
    try {
      return database.prepare(`SELECT count(*) FROM ${table}`).pluck().get() as number;
    } finally {
      database.close();
    }
  } catch {
    return 0;
  }
}

export interface Standing extends AtRest {
  /** Alarms of each bed, as text. */
  readonly alarms: Readonly<Record<string, string>>;
}

/** What stands in a data directory that nobody serves any more. */
export function standing(directory: string, beds: readonly string[]): Standing {
  const station = standStation(directory);
  station.station.refresh();
  const alarms = Object.fromEntries(
    beds.map((bed) => [bed, JSON.stringify(station.views.alarms({ bed, limit: 1000 }).alarms, null, 1)]),
  );
  station.close();
  return { ...atRest(directory), alarms };
}
