/** The database locked for writing by another process, and read by a backup, while readings come in. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { temporaryDirectory, type Undo } from '../bench/processes.js';
import { run } from '../support/kept-processes.js';
import type { Season } from '../support/season.js';
import { type Counts, holds, same } from './counting.js';
import { Probes } from './probes.js';
import { atRest, loaded, newestOf, Service } from './service.js';

export async function tryLocked(undo: Undo, season: Season): Promise<Counts> {
  const { messages } = season;
  const directory = await loaded(undo, season);
  const service = await Service.start(undo, ['--data', directory, '--mqtt-listen', '127.0.0.1:0']);
  const probes = Probes.at(undo, service.broker);
  const part = Math.ceil(messages.length / 3);
  await probes.publish(messages.slice(0, part));

  const other = new Database(join(directory, 'sandlarder.db'));
  undo(() => other.close());
  other.exec('BEGIN IMMEDIATE');
  const publishing = probes.publish(messages.slice(part, 2 * part));
  const said = await service.says(/not acknowledged until they can: another program is writing/);
  same('acknowledged while locked', part, probes.acknowledged);
  other.exec('COMMIT');
  await publishing;

  const to = join(temporaryDirectory(undo), 'copy.db');
  const during = probes.publish(messages.slice(2 * part));
  const backup = await run(['backup', '--data', directory, '--to', to]);
  holds(backup.code === 0, `a backup, got: ${backup.stderr}`);
  await during;
  await service.settled(newestOf(season));
  const { problems } = await service.health();
  holds(!problems.some((one) => one.includes('stored')), `no problem with the store, got ${problems}`);
  await service.stop();
  const { readings } = atRest(directory);
  same('readings kept', messages.length, readings);
  const copied = atRest(to.replace(/copy\.db$/, ''), 'copy.db').readings;
  holds(copied >= 2 * part, `the backup to have what was acknowledged before it, ${2 * part}, got ${copied}`);
  return {
    ...{ sent: probes.sent, acknowledged: probes.acknowledged, kept: readings, said },
    'in the backup that was made meanwhile': copied,
  };
}
