/**
 * `kill -9` of the service at random moments of a season being taken in: nothing acknowledged is lost, nothing is there
 * twice, and the alarms are those of a run that nobody disturbed.
 */
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { freePort, temporaryDirectory, type Undo } from '../bench/processes.js';
import { startMosquitto } from '../services/mosquitto.js';
import { type Season, seeded } from '../support/season.js';
import { inBatches, standStation } from '../support/standing-station.js';
import { type Counts, holds, same } from './counting.js';
import { Probes } from './probes.js';
import { atRest, loaded, newestOf, Service } from './service.js';
import { receiver, repeated, type Told } from './told.js';

export interface KillsAsked {
  readonly broker: 'built-in' | 'mosquitto';
  readonly kills: number;
  readonly season: Season;
}

/** Least and greatest time between a start and a kill, ms. */
const LIVES_ms = [20, 320] as const;
/** Between parts of the season, so that it lasts as long as the kills, ms. */
const BREATH_ms = 100;

/** @throws NotHeld */
export async function tryKills(undo: Undo, { broker, kills, season }: KillsAsked): Promise<Counts> {
  const directory = await loaded(undo, season);
  const told = await receiver(undo);
  const { url, launch } = await launcher(undo, broker, ['--data', directory, '--webhook', told.url]);
  const probes = Probes.at(undo, url);
  const publishing = paced(probes, season, kills);
  const service = await killWhile(publishing, kills, launch, seeded(broker === 'mosquitto' ? 2 : 1));
  await publishing;
  await service.settled(newestOf(season));
  await service.stop();
  const { readings, setAside } = atRest(directory);
  same('acknowledged messages', season.messages.length, probes.acknowledged);
  same('readings kept', season.messages.length, readings);
  same('values set aside', 0, setAside);
  const alarms = sameAlarms(undo, directory, season);
  const messages = toldOnce(directory, told);
  return {
    ...{ kills, sent: probes.sent, acknowledged: probes.acknowledged, kept: readings, alarms },
    ...{ messages, 'came twice with their key': repeated(told) },
  };
}

type Launcher = () => Promise<Service>;

async function launcher(
  undo: Undo,
  broker: KillsAsked['broker'],
  args: readonly string[],
): Promise<{ url: string; launch: Launcher }> {
  if (broker === 'built-in') {
    const address = `127.0.0.1:${await freePort()}`;
    return {
      url: `mqtt://${address}`,
      launch: () => Service.start(undo, [...args, '--mqtt-listen', address]),
    };
  }
  const mosquitto = await startMosquitto();
  undo(() => mosquitto.dispose());
  const launch = (): Promise<Service> => Service.start(undo, [...args, '--broker', mosquitto.url]);
  // What is published before the broker knows the session is kept for nobody.
  const first = await launch();
  await first.connected();
  await first.running.kill();
  return { url: mosquitto.url, launch };
}

async function paced(probes: Probes, { messages }: Season, kills: number): Promise<void> {
  for (const part of inBatches(messages, Math.ceil(messages.length / (kills * 2)))) {
    await probes.publish(part);
    await wait(BREATH_ms);
  }
}

async function killWhile(
  work: Promise<unknown>,
  kills: number,
  launch: Launcher,
  random: () => number,
): Promise<Service> {
  const [least_ms, most_ms] = LIVES_ms;
  work.catch(() => undefined);
  let service = await launch();
  for (let done = 0; done < kills; done += 1) {
    await wait(least_ms + random() * (most_ms - least_ms));
    await service.running.kill();
    service = await launch();
  }
  await work;
  return service;
}

/** Alarms of runs that nobody disturbed, in this process, by season. */
const undisturbed = new WeakMap<Season, string>();

function alarmsOf(undo: Undo, season: Season): string {
  const station = standStation(temporaryDirectory(undo));
  station.load(season.site);
  for (const batch of inBatches(season.messages, 500)) station.commit(batch);
  station.settle();
  const text = station.alarmText();
  station.close();
  return text;
}

/** @returns how many alarms */
function sameAlarms(undo: Undo, directory: string, season: Season): number {
  const expected = undisturbed.get(season) ?? alarmsOf(undo, season);
  undisturbed.set(season, expected);
  const station = standStation(directory);
  station.station.refresh();
  const got = station.alarmText();
  station.close();
  holds(got === expected, `the alarms of a run that nobody disturbed:\n${expected}\ngot:\n${got}`);
  return (JSON.parse(expected) as unknown[]).length;
}

/** No alarm was told twice as raised, and the receiver has every message of the outbox and no other. @returns how many */
function toldOnce(directory: string, { keys }: Told): number {
  const database = new Database(join(directory, 'sandlarder.db'), { readonly: true });
  const all = (sql: string): string[] => database.prepare(sql).pluck().all() as string[];
  const written = all("SELECT key FROM outbox WHERE via = 'webhook' ORDER BY key");
  const alarms = all('SELECT id FROM alarm');
  database.close();
  const raised = [...keys.keys()].filter((key) => key.includes('/raised/'));
  holds(raised.length > 0, 'some alarms to be told, got none');
  for (const id of alarms) {
    const times = raised.filter((key) => key.startsWith(`${id}/raised/`)).length;
    holds(times <= 1, `alarm ${id} to be told once as raised, got ${times} messages`);
  }
  same('messages of the outbox', written.join(' '), [...keys.keys()].sort().join(' '));
  return written.length;
}
