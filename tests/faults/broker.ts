/** The station's own broker killed, held up, and with something else at its port, under a service that takes readings from it. */
import type { Undo } from '../bench/processes.js';
import { startMosquitto } from '../services/mosquitto.js';
import type { Season } from '../support/season.js';
import { inBatches } from '../support/standing-station.js';
import { type Counts, same } from './counting.js';
import { garbageAt } from './garbage.js';
import { Probes } from './probes.js';
import { atRest, loaded, newestOf, Service } from './service.js';

/** With something else at its port it is asked so often before the broker comes back. */
const ASKED = 3;

export async function tryBroker(undo: Undo, season: Season): Promise<Counts> {
  const directory = await loaded(undo, season);
  const mosquitto = await startMosquitto();
  undo(() => mosquitto.dispose());
  const service = await Service.start(undo, ['--data', directory, '--broker', mosquitto.url]);
  await service.connected();
  const probes = Probes.at(undo, mosquitto.url);
  const parts = inBatches(season.messages, Math.ceil(season.messages.length / 4));
  const [first = [], second = [], third = [], fourth = []] = parts;
  const said: string[] = [];
  const gone = async (): Promise<void> => {
    said.push(await service.says(/^no connection to the broker/));
  };

  await probes.publish(first);
  // What it was given and had not written down is its own to lose: it is killed between messages.
  await service.settled(newestOf({ messages: first }));
  await mosquitto.kill();
  await gone();
  await mosquitto.restart();
  await probes.publish(second);

  mosquitto.hold();
  const publishing = probes.publish(third);
  await gone();
  mosquitto.release();
  await publishing;
  await service.connected();
  await service.settled(newestOf({ messages: third }));

  await mosquitto.stop();
  const garbage = await garbageAt(undo, mosquitto.port);
  said.push(await service.says(/^no connection to the broker: what listens there does not answer/));
  await service.until('something else at the port to be asked', () => garbage.answered() >= ASKED);
  await garbage.end();
  await mosquitto.restart();
  await probes.publish(fourth);
  await service.connected();
  await service.settled(newestOf(season));
  await service.stop();
  const { readings, setAside } = atRest(directory);
  same('readings kept', season.messages.length, readings);
  same('values set aside', 0, setAside);
  return {
    ...{ sent: probes.sent, acknowledged: probes.acknowledged, kept: readings },
    ...{ 'asked while it was garbage': garbage.answered(), said: [...new Set(said)].join(' | ') },
  };
}
