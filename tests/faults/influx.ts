/** The long archive with something else at its port, held up, and killed, while readings come in. */

import { parseInfluxUrl } from '../../services/archive/influx/address.js';
import { InfluxConnection } from '../../services/archive/influx/index.js';
import type { Undo } from '../bench/processes.js';
import { startInfluxd } from '../support/influxd.js';
import { run } from '../support/kept-processes.js';
import type { Season } from '../support/season.js';
import { inBatches } from '../support/standing-station.js';
import { type Counts, holds, same } from './counting.js';
import { garbageAt } from './garbage.js';
import { Probes } from './probes.js';
import { atRest, type Health, loaded, newestOf, Service } from './service.js';

export interface InfluxAsked {
  readonly season: Season;
  /** Whether it is held up until the service gives up waiting for its answer, which takes half a minute. */
  readonly held: boolean;
}

export async function tryInflux(undo: Undo, { season, held }: InfluxAsked): Promise<Counts> {
  const influxd = await startInfluxd();
  undo(() => influxd.dispose());
  const url = `${influxd.url}/sand`;
  holds((await run(['archive', 'setup', '--influx', url])).code === 0, 'an archive that is set up');
  await influxd.kill();
  const garbage = await garbageAt(undo, influxd.port);
  const directory = await loaded(undo, season);
  const args = ['--data', directory, '--mqtt-listen', '127.0.0.1:0', '--influx', url];
  const service = await Service.start(undo, args);
  const probes = Probes.at(undo, service.broker);
  const [first = [], second = [], third = []] = inBatches(
    season.messages,
    Math.ceil(season.messages.length / 3),
  );
  await probes.publish(first);
  const said = await service.says(/readings wait for the long archive since .*: what answers there/);
  await garbage.end();
  await influxd.start();
  await emptied(service);

  if (held) influxd.hold();
  else await influxd.kill();
  await probes.publish(second);
  const { longArchive } = await service.until('trouble with the long archive', inTrouble(Date.now()));
  if (held) influxd.release();
  else await influxd.start();
  await probes.publish(third);
  await service.settled(newestOf(season));
  await emptied(service);
  await service.stop();
  const asking = new InfluxConnection(parseInfluxUrl(url));
  undo(() => asking.close());
  const [table] = await asking.query('SELECT count(temperature_C) FROM reading');
  const forwarded = Number(table?.values?.[0]?.[1]);
  const { readings } = atRest(directory);
  same('readings kept', season.messages.length, readings);
  same('readings in the long archive', readings, forwarded);
  return {
    ...{ sent: probes.sent, acknowledged: probes.acknowledged, kept: readings, forwarded, said },
    ...{ 'garbage answers': garbage.answered(), 'said of it later': longArchive?.lastError?.reason ?? '' },
  };
}

const inTrouble =
  (since: number) =>
  ({ longArchive }: Health): boolean =>
    longArchive !== null && longArchive.waiting > 0 && Date.parse(longArchive.lastError?.at ?? '') >= since;

const emptied = (service: Service): Promise<Health> =>
  service.until(
    'everything forwarded',
    ({ longArchive, status }) => longArchive?.waiting === 0 && status === 'ok',
  );
