/** The disk full, and the disk read-only: nothing is acknowledged that cannot be kept, and both are said in a sentence. */
import type { Undo } from '../bench/processes.js';
import { run } from '../support/kept-processes.js';
import type { Season } from '../support/season.js';
import { type Counts, holds, same } from './counting.js';
import { failingDisk, fullDisk, pidOf } from './places.js';
import { Probes } from './probes.js';
import { atRestElsewhere, loaded, newestOf, Service } from './service.js';

const MQTT = ['--mqtt-listen', '127.0.0.1:0'];

/** Full twice, the second time over a start. */
export async function tryFullDisk(undo: Undo, season: Season): Promise<Counts> {
  const { messages } = season;
  const disk = await fullDisk(undo);
  const { directory, seen, through, environment } = disk;
  await loaded(undo, season, directory, through);
  const args = ['--data', directory, ...MQTT];
  const service = await Service.start(undo, args, { through, environment });
  const pid = pidOf(service.running.process);
  const probes = Probes.at(undo, service.broker);
  const third = Math.ceil(messages.length / 3);
  await probes.publish(messages.slice(0, third));
  disk.fill(pid);
  const publishing = probes.publish(messages.slice(third, 2 * third));
  const said = await service.says(
    /^readings cannot be stored, and are not acknowledged until they can: the disk/,
  );
  holds(/is full|no more in one file/.test(said), `that the disk is full to be said, got: ${said}`);
  const whileFull = probes.acknowledged - third;
  holds(whileFull < third, 'something that cannot be stored to stay unacknowledged, got all acknowledged');
  const refused = await startRefused(disk.kind, directory, through);
  disk.free(pid);
  await publishing;
  await service.until('readings accepted again', ({ accepting }) => accepting);
  await probes.publish(messages.slice(2 * third));
  await service.settled(newestOf(season));
  const { problems } = await service.health();
  holds(!problems.some((one) => one.includes('cannot be stored')), `no such problem, got ${problems}`);
  await service.running.kill();
  const { readings, setAside } = atRestElsewhere(undo, seen);
  same('readings kept', messages.length, readings);
  same('values set aside', 0, setAside);
  return {
    ...{ disk: disk.kind, sent: probes.sent, acknowledged: probes.acknowledged, kept: readings },
    ...{ 'acknowledged while it filled up': whileFull, said, ...refused },
  };
}

/** A command beside the service on a disk that is full says so in a sentence, too. */
async function startRefused(
  kind: string,
  directory: string,
  through: readonly string[],
): Promise<Record<string, string>> {
  if (through.length === 0) return {};
  const { code, stderr } = await run(
    ['backup', '--data', directory, '--to', `${directory}/b.db`],
    {},
    through,
  );
  holds(code === 1 && !/\n.*\n/.test(stderr), `one sentence of a backup on ${kind}, got ${code}: ${stderr}`);
  return { 'a backup there': stderr.trim() };
}

/** The file system fails under the service; it is checked, and the service started again. */
export async function tryReadOnlyDisk(undo: Undo, season: Season): Promise<Counts> {
  const { messages } = season;
  const disk = await failingDisk(undo);
  if (!disk) return { disk: 'no disk can be mounted here: what a full one says stands for it' };
  const { directory, seen, through } = disk;
  await loaded(undo, season, directory, through);
  const first = await Service.start(undo, ['--data', directory, ...MQTT], { through });
  const half = Math.ceil(messages.length / 2);
  const probes = Probes.at(undo, first.broker);
  await probes.publish(messages.slice(0, half));
  disk.fail();
  const port = new URL(first.broker).port;
  const publishing = probes.publish(messages.slice(half));
  const said = await first.says(/not acknowledged until they can: the disk of .* can only be read/);
  same('acknowledged while read-only', half, probes.acknowledged);
  await first.running.kill();
  const { code, stderr } = await run(
    ['serve', '--data', directory, '--listen', '127.0.0.1:0', ...MQTT],
    {},
    through,
  );
  holds(code === 1 && /can only be read/.test(stderr), `a start to be refused in a sentence, got: ${stderr}`);
  disk.repair();
  const listen = ['--mqtt-listen', `127.0.0.1:${port}`];
  const second = await Service.start(undo, ['--data', directory, ...listen], { through });
  await publishing;
  await second.settled(newestOf(season));
  await second.stop();
  const { readings } = atRestElsewhere(undo, seen);
  same('readings kept', messages.length, readings);
  return {
    ...{ disk: disk.kind, sent: probes.sent, acknowledged: probes.acknowledged, kept: readings },
    ...{ said, 'a start there': stderr.trim().split('\n').at(-1) ?? '' },
  };
}
