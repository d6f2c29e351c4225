/** `sandlarder serve --share`: a worker of a centre, until it is told to stop. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { SandlarderError } from '../core/errors.js';
import { partitionName, partitionOf } from '../core/model/partition.js';
import { buildCentreApp, type CentreHealth, listen } from '../http/index.js';
import { Crew } from '../joining/sharing/crew.js';
import { type GroupFolder, openGroupFolder, partitionFolder } from '../joining/sharing/group-folder.js';
import { Worker } from '../joining/sharing/worker.js';
import { openTls } from '../joining/tls-files.js';
import type { Log } from '../log.js';
import { VERSION } from '../program.js';
import { type Service, serve } from '../serve.js';
import type { ServeSettings } from '../settings.js';
import type { ShareSettings } from '../share-settings.js';
import { untilStopped } from './until-stopped.js';

export async function runWorker(settings: ServeSettings, share: ShareSettings, log: Log): Promise<void> {
  requireNoService(settings.data);
  const group = openGroupFolder(settings.data, share.group, share.partitions);
  const crew = new Crew(settings.data);
  let worker: Worker | undefined;
  const app = await centreApp(settings, group, crew.name, () => worker, log);
  try {
    const url = await listen(app, settings.listen);
    worker = new Worker({
      ...{ partitions: group.partitions, crew, url, log },
      open: (partition) => openPartition(settings, group, share, partition, log),
      clock: () => performance.now(),
      after: (delay_ms, call) => {
        const timer = setTimeout(call, delay_ms);
        return () => clearTimeout(timer);
      },
    });
    const stopped = untilStopped();
    log(
      `ready: worker ${crew.name} of ${group.group} in ${group.partitions} partitions, at ${url}/api/health`,
    );
    await stopped;
    log('stopping');
    await worker.close();
  } finally {
    await app.close();
    crew.leave();
  }
  log('stopped');
}

/** What one service wrote is not what a centre divides. */
function requireNoService(directory: string): void {
  if (existsSync(join(directory, 'sandlarder.db')))
    throw new SandlarderError(
      'WRONG_USAGE',
      `--data: expected a folder for a centre, got ${directory}, which is the data directory of one service`,
    );
}

async function openPartition(
  settings: ServeSettings,
  group: GroupFolder,
  { firstAt }: ShareSettings,
  number: number,
  log: Log,
): Promise<Service> {
  const name = partitionName(number);
  const port = firstAt.port === 0 ? 0 : firstAt.port + number;
  const service = await serve({
    settings: {
      ...settings,
      data: partitionFolder(settings.data, number),
      listen: { host: firstAt.host, port },
      partition: { group: group.group, number, of: group.partitions },
    },
    tellConsole: (line) => process.stdout.write(`${line}\n`),
    log: (line, kind) => log(`${name}: ${line}`, kind === undefined ? undefined : `${name} ${kind}`),
  });
  log(`${name}: questions at ${service.httpUrl}`);
  if (service.firstLink !== undefined)
    log(`${name}: the first steward signs in here, once, within a day: ${service.firstLink}`);
  return service;
}

type AskWorker = () => Worker | undefined;

function centreApp(
  { transport }: ServeSettings,
  group: GroupFolder,
  name: string,
  worker: AskWorker,
  log: Log,
) {
  const { tls, behindProxy, plainPasswords } = transport;
  return buildCentreApp(
    {
      health: () => centreHealth(group, name, worker()),
      placeOf: (site) => {
        const partition = partitionOf(site, group.partitions);
        const all = [...(worker()?.workers().values() ?? [])].flatMap(({ held }) => held);
        const url = all.find((one) => one.partition === partition)?.url || null;
        return { site, partition: partitionName(partition), url };
      },
    },
    {
      tls: tls && openTls(tls, log).pair,
      mayListenWider: tls !== undefined || behindProxy || plainPasswords,
      report: (error, where) => log(`${where}: ${String(error)}`, where),
    },
  );
}

function centreHealth({ group, partitions }: GroupFolder, name: string, worker?: Worker): CentreHealth {
  const own = [...(worker?.held ?? [])].map(([partition, served]) => ({ partition, ...served.health() }));
  const problems = [
    ...(worker?.forsaken() ?? []).map((one) => `${partitionName(one)} is held by no worker`),
    ...own
      .filter(({ status }) => status !== 'ok')
      .map(({ partition }) => `${partitionName(partition)} is degraded: its own /api/health says why`),
  ];
  return {
    status: problems.length === 0 ? 'ok' : 'degraded',
    problems,
    accepting: worker !== undefined && own.every(({ accepting }) => accepting),
    version: VERSION,
    ...{ group, partitions, worker: name },
    workers: [...(worker?.workers() ?? [])].map(([one, { url, held }]) => ({
      ...{ name: one, url },
      held: held.map((part) => ({ partition: partitionName(part.partition), url: part.url })),
    })),
  };
}
