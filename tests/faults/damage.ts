/** A page of the database damaged: found by a start, said with the one command that mends it, and mended by that command. */
import { execFile } from 'node:child_process';
import { closeSync, openSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import Database from 'better-sqlite3';
import { freePort, temporaryDirectory, type Undo } from '../bench/processes.js';
import { mainFile, run } from '../support/kept-processes.js';
import type { Season } from '../support/season.js';
import { type Counts, holds, same } from './counting.js';
import { Probes } from './probes.js';
import { atRest, loaded, newestOf, Service } from './service.js';

export const DAMAGES = ['first page', 'page of readings'] as const;
export type Damage = (typeof DAMAGES)[number];

const PAGE_bytes = 4096;

export async function tryDamage(undo: Undo, season: Season, damage: Damage): Promise<Counts> {
  const { messages } = season;
  const directory = await loaded(undo, season);
  const address = `127.0.0.1:${await freePort()}`;
  const args = ['--data', directory, '--mqtt-listen', address];
  const half = Math.ceil(messages.length / 2);
  const first = await Service.start(undo, args);
  const probes = Probes.at(undo, first.broker);
  await probes.publish(messages.slice(0, half));
  await first.settled(newestOf({ messages: messages.slice(0, half) }));
  const to = join(temporaryDirectory(undo), 'last backup.db');
  const { code, stderr } = await run(['backup', '--data', directory, '--to', to]);
  holds(code === 0, `a backup, got: ${stderr}`);
  await first.running.kill();
  const torn = tear(directory, damage);

  const said = damage === 'first page' ? await refusedStart(args) : await degradedStart(undo, args);
  const restored = await runAsSaid(said);
  holds(/^restored: /.test(restored), `the backup to be restored, got: ${restored}`);
  const checked = await run(['check-data', '--data', directory]);
  holds(checked.code === 0, `a sound database, got: ${checked.stderr}`);
  const again = await Service.start(undo, args);
  await probes.publish(messages.slice(half));
  await again.settled(newestOf(season));
  const { problems } = await again.health();
  holds(!problems.some((one) => one.includes('damaged')), `no word of damage, got ${problems}`);
  await again.stop();
  const { readings } = atRest(directory);
  same('readings kept', messages.length, readings);
  return {
    ...{ sent: probes.sent, acknowledged: probes.acknowledged, kept: readings },
    ...{ 'bytes torn': torn, said },
  };
}

/** Writes over a page, as a failing card does, and leaves a log behind, as whatever ended the service did. */
function tear(directory: string, damage: Damage): number {
  const file = join(directory, 'sandlarder.db');
  const database = new Database(file);
  const page = damage === 'first page' ? 1 : leafOf(database);
  database.close();
  const opened = openSync(file, 'r+');
  const torn = writeSync(opened, Buffer.alloc(PAGE_bytes, 0xa5), 0, PAGE_bytes, (page - 1) * PAGE_bytes);
  closeSync(opened);
  writeFileSync(`${file}-wal`, Buffer.alloc(32));
  return torn;
}

/** A page in the middle of the readings. */
function leafOf(database: Database.Database): number {
  const pages = database
    .prepare("SELECT pageno FROM dbstat WHERE name = 'reading' AND pagetype = 'leaf' ORDER BY pageno")
    .pluck()
    .all() as number[];
  return pages[Math.floor(pages.length / 2)] ?? 1;
}

async function refusedStart(args: readonly string[]): Promise<string> {
  const { code, stderr } = await run(['serve', '--listen', '127.0.0.1:0', ...args]);
  holds(
    code === 1 && /is damaged/.test(stderr),
    `a start to be refused in a sentence, got ${code}: ${stderr}`,
  );
  return stderr.trim().split('\n').at(-1) ?? '';
}

async function degradedStart(undo: Undo, args: readonly string[]): Promise<string> {
  const service = await Service.start(undo, args);
  const said = await service.says(/^the database in .* is damaged/);
  await service.stop();
  return said;
}

/** What the sentence says to run, as a shell runs it. */
async function runAsSaid(said: string): Promise<string> {
  const [, command] = /"sandlarder (restore .+ --data .+?)"/.exec(said) ?? [];
  holds(command !== undefined, `a command to restore the backup, got: ${said}`);
  const line = `exec "$0" "$1" ${command}`;
  const { stdout } = await promisify(execFile)('sh', ['-c', line, process.execPath, mainFile()]);
  return stdout;
}
