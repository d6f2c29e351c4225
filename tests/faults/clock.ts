/** The wall clock of the machine set forward and back under a service that watches and tells. */
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { DAY_ms, HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { temporaryDirectory, type Undo } from '../bench/processes.js';
import type { Message, Season } from '../support/season.js';
import { type Counts, holds, same } from './counting.js';
import { Probes } from './probes.js';
import { atRest, loaded, newestOf, Service } from './service.js';
import { receiver } from './told.js';

/** The built suite is one folder deeper than its sources, where the preloaded script lies. */
const CLOCK = ['../support/shifted-clock.mjs', '../../../tests/support/shifted-clock.mjs'];

/** How far it is set, one after the other, ms. */
const SETTINGS = [
  [3 * HOUR_ms, 'forward by 3 hours'],
  [-26 * HOUR_ms, 'back by 26 hours'],
  [9 * DAY_ms, 'forward by 9 days'],
  [-10 * DAY_ms, 'back by 10 days'],
] as const;

/**
 * People are told by webhooks, the second an hour after the first has not answered.
 *
 * @param settings how many of the settings
 */
export async function tryClock(
  undo: Undo,
  season: Season,
  settings: number = SETTINGS.length,
): Promise<Counts> {
  const told = await receiver(undo);
  const directory = await loaded(undo, { site: withPeople(season.site, told.url) });
  const clock = join(temporaryDirectory(undo), 'clock');
  writeFileSync(clock, '0');
  const environment = { NODE_OPTIONS: `--import ${preloaded()}`, SANDLARDER_TEST_CLOCK: clock };
  const args = ['--data', directory, '--mqtt-listen', '127.0.0.1:0'];
  const service = await Service.start(undo, args, { environment });
  const probes = Probes.at(undo, service.broker);
  await probes.publish(season.messages);
  await service.settled(newestOf(season));
  // What half a year without readings brings is told before.
  await probes.publish(measuredNow(season, 0));
  await service.settled(Date.now() - HOUR_ms);
  let fresh = PROBES.length;
  const before = told.keys.size;
  holds(before > 0, 'the keeper to be told something, got nothing');
  const said: string[] = [];
  let ahead_ms = 0;
  for (const [by, words] of SETTINGS.slice(0, settings)) {
    ahead_ms += by;
    writeFileSync(clock, String(ahead_ms));
    service.running.process.kill('SIGUSR2');
    said.push(await service.says(new RegExp(`^the clock of this machine was set ${words}`)));
    // Measured now, by probes whose clocks are right.
    await probes.publish(measuredNow(season, fresh));
    fresh += PROBES.length;
  }
  await service.until('everything told', ({ outboxWaiting }) => outboxWaiting === 0);
  const stormed = [...told.keys.keys()].slice(before);
  await service.stop();
  const { readings, setAside } = atRest(directory);
  same('readings kept', season.messages.length + fresh, readings);
  same('values set aside', 0, setAside);
  same('messages told because the clock was set', '', stormed.join(' '));
  return {
    ...{ settings, sent: probes.sent, acknowledged: probes.acknowledged, kept: readings },
    ...{ 'told before': before, 'told by the settings': stormed.length, said: said.join(' | ') },
  };
}

const preloaded = (): string => {
  const [path] = CLOCK.map((one) => fileURLToPath(new URL(one, import.meta.url))).filter((one) =>
    existsSync(one),
  );
  return path ?? '';
};

const PROBES = ['p01', 'p02', 'p03'];

/** A reading of each probe, minutes ago at the most, each time others. */
function measuredNow({ messages }: Season, number: number): Message[] {
  const topic = messages[0]?.topic.replace(/p\d\d/, 'p01') ?? '';
  const at = Math.floor(Date.now() / 1000) - 5 * 60 + number;
  return PROBES.map((probe) => ({
    topic: topic.replace('p01', probe),
    payload: JSON.stringify([{ n: 'temperature', u: 'Cel', v: 21.5, t: at }]),
  }));
}

function withPeople(site: unknown, url: string): unknown {
  const person = (id: string): object => ({
    ...{ id, name: `Person ${id}`, language: 'en', reach: [{ via: 'webhook', to: `${url}${id}` }] },
  });
  const { site: about, beds, ...rest } = site as { site: object; beds: object[] };
  return {
    ...rest,
    site: { ...about, escalation: [{ to: 'second', after_min: HOUR_ms / MINUTE_ms }] },
    beds: beds.map((bed) => ({ ...bed, keeper: 'first' })),
    people: ['first', 'second'].map(person),
  };
}
