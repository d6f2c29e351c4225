/**
 * The network between service and broker cut without a word and healed: the service notices by its own signs of life,
 * says so, and comes back. By a passage that stops, and, where it may be made, by a network of the service's own whose
 * link goes down.
 */
import type { Undo } from '../bench/processes.js';
import { startMosquitto } from '../services/mosquitto.js';
import type { Season } from '../support/season.js';
import { inBatches } from '../support/standing-station.js';
import { type Counts, same } from './counting.js';
import { passageTo } from './garbage.js';
import { brokerIn, twoNetworks } from './networks.js';
import { Probes } from './probes.js';
import { atRest, loaded, newestOf, Service } from './service.js';

export async function tryPassage(undo: Undo, season: Season): Promise<Counts> {
  const mosquitto = await startMosquitto();
  undo(() => mosquitto.dispose());
  const passage = await passageTo(undo, mosquitto.port);
  const directory = await loaded(undo, season);
  const url = `mqtt://127.0.0.1:${passage.port}`;
  const service = await Service.start(undo, ['--data', directory, '--broker', url]);
  const probes = Probes.at(undo, mosquitto.url);
  const counts = await cutAndHealed(season, service, probes, {
    cut: () => passage.cut(),
    heal: () => passage.heal(),
  });
  same('readings kept', season.messages.length, atRest(directory).readings);
  return { ...counts, kept: atRest(directory).readings, connections: passage.opened() };
}

interface Link {
  cut(): void;
  heal(): void;
}

async function cutAndHealed(season: Season, service: Service, probes: Probes, link: Link): Promise<Counts> {
  await service.connected();
  const [first = [], second = [], third = []] = inBatches(
    season.messages,
    Math.ceil(season.messages.length / 3),
  );
  await probes.publish(first);
  const publishing = probes.publish(second);
  link.cut();
  await publishing;
  const said = await service.says(/^no connection to the broker/);
  link.heal();
  await probes.publish(third);
  await service.connected();
  await service.settled(newestOf(season));
  await service.stop();
  return { sent: probes.sent, acknowledged: probes.acknowledged, said };
}

/** Two networks that nobody else sees, joined by a cable: the broker in one, the service in the other. */
export async function tryNamespaces(undo: Undo, season: Season): Promise<Counts> {
  const cable = await twoNetworks(undo);
  if (cable === undefined) return { network: 'none of its own may be made here: the passage stands for it' };
  const broker = await brokerIn(undo, cable.near);
  const directory = await loaded(undo, season);
  const service = await Service.start(undo, ['--data', directory, '--broker', broker.url], {
    through: cable.far.through,
    ask: (url) => cable.far.ask(url),
  });
  const probes = Probes.at(undo, broker.socket);
  const counts = await cutAndHealed(season, service, probes, cable);
  same('readings kept', season.messages.length, atRest(directory).readings);
  return { ...counts, kept: atRest(directory).readings };
}
