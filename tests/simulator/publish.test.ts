import { describe, expect, test } from 'vitest';
import { readMessage } from '../../services/intake/index.js';
import { loadScenario, publish, simulateSeason } from '../../simulator/index.js';
import type { Scenario } from '../../simulator/scenario.js';
import { type Arrived, openBroker } from './a-broker.js';

const FROM = Date.UTC(2026, 4, 4, 8);

const season = (days: number, change: Partial<Scenario> = {}): Scenario => ({
  ...loadScenario('sound-box'),
  days,
  everyMinutes: 60,
  faults: { lost: 0, outageEvery_days: 0, probes: [], outages: [] },
  ...change,
});

const isReadings = ({ topic }: Arrived): boolean => topic.endsWith('/readings');

/** `probe time` of each temperature that arrived, once. */
function timesOf(arrived: readonly Arrived[]): Set<string> {
  const measured = arrived.filter(isReadings).flatMap(({ topic, payload }) =>
    readMessage({ topic, payload: Buffer.from(payload), receivedAt: FROM + 1e10 }).measured.map((one) => ({
      ...one,
      topic,
    })),
  );
  return new Set(
    measured
      .filter(({ quantity }) => quantity === 'temperature')
      .map(({ topic, time }) => `${topic.split('/')[4]} ${time}`),
  );
}

async function timesSent(scenario: Scenario, seed: number): Promise<Set<string>> {
  const times = new Set<string>();
  for await (const day of simulateSeason(scenario, seed))
    for (const { probe, readings } of day)
      for (const { time_s } of readings) times.add(`${probe} ${FROM + time_s * 1000}`);
  return times;
}

const publishing = { seed: 4, from: FROM, speed: Number.POSITIVE_INFINITY };

describe('a season is published', () => {
  test('whole, from every probe, at its own times', async () => {
    const broker = await openBroker();
    const scenario = season(3);
    const seen: number[] = [];
    const result = await publish({
      ...publishing,
      brokerUrl: broker.url,
      scenario,
      onProgress: (time) => seen.push(time),
    });
    const readings = broker.arrived.filter(isReadings);
    expect(timesOf(readings)).toEqual(await timesSent(scenario, 4));
    expect(result).toEqual({
      published: readings.length,
      retried: 0,
      bytes: readings.reduce((sum, { payload }) => sum + Buffer.byteLength(payload), 0),
    });
    expect(readings).toHaveLength(3 * 24 * 5);
    expect(seen.map((time) => (time - FROM) / 86_400_000)).toEqual([1, 2, 3]);
  });

  test('with what an outage held up in packs of many readings', async () => {
    const broker = await openBroker();
    const scenario = season(20, { faults: { lost: 0, outageEvery_days: 3, probes: [], outages: [] } });
    await publish({ ...publishing, brokerUrl: broker.url, scenario });
    const sizes = broker.arrived.filter(isReadings).map(({ payload }) => JSON.parse(payload).length);
    expect(Math.max(...sizes)).toBeGreaterThan(3 * 2);
    expect(timesOf(broker.arrived)).toEqual(await timesSent(scenario, 4));
  });

  test('and every probe says, retained, that it is there and that it leaves', async () => {
    const broker = await openBroker();
    await publish({ ...publishing, brokerUrl: broker.url, scenario: season(1) });
    const said = broker.arrived.filter(
      ({ topic }) => topic === 'sandlarder/v1/ridge-station/probes/p31/status',
    );
    expect(said.map(({ payload, retain }) => [payload, retain])).toEqual([
      ['online', true],
      ['offline', true],
    ]);
  });

  test('whole, though all connections break twice', async () => {
    let count = 0;
    const broker = await openBroker((arrived, { cutConnections }) => {
      count += isReadings(arrived) ? 1 : 0;
      if (!isReadings(arrived) || (count !== 50 && count !== 200)) return true;
      cutConnections();
      return false;
    });
    const scenario = season(3);
    await publish({ ...publishing, brokerUrl: broker.url, scenario });
    expect(timesOf(broker.arrived)).toEqual(await timesSent(scenario, 4));
  });
});

describe('publishing ends', () => {
  test('when it is told to, though the broker has died with messages under way', async () => {
    const stop = new AbortController();
    let count = 0;
    const broker = await openBroker((arrived, { die }) => {
      count += isReadings(arrived) ? 1 : 0;
      if (count < 100) return true;
      die();
      stop.abort();
      return false;
    });
    const result = await publish({
      ...publishing,
      brokerUrl: broker.url,
      scenario: season(30),
      signal: stop.signal,
    });
    expect(result.published).toBeLessThanOrEqual(100);
  });

  test('when it is told to while it waits for its pace', async () => {
    const stop = new AbortController();
    const broker = await openBroker((arrived) => {
      if (isReadings(arrived)) stop.abort();
      return true;
    });
    const scenario = season(3, { everyMinutes: 10 });
    // The first readings come after ten minutes of the season: at this pace at once, the second a minute later.
    await publish({ ...publishing, brokerUrl: broker.url, scenario, speed: 600 / 0.05, signal: stop.signal });
    expect(broker.arrived.filter(isReadings).length).toBeLessThan(20);
  });

  test('before it began, where the signal has been given already', async () => {
    const broker = await openBroker();
    const signal = AbortSignal.abort();
    const result = await publish({ ...publishing, brokerUrl: broker.url, scenario: season(3), signal });
    expect(result.published).toBe(0);
  });

  test('with an error where nothing is acknowledged any more', async () => {
    const broker = await openBroker((arrived) => !isReadings(arrived));
    const season_ = publish({ ...publishing, brokerUrl: broker.url, scenario: season(10), patience_ms: 50 });
    await expect(season_).rejects.toMatchObject({
      code: 'BROKER_UNAVAILABLE',
      message: expect.stringMatching(/acknowledged nothing for 0\.05 s/),
    });
  });

  test('with an error where there is no broker', async () => {
    const broker = await openBroker();
    broker.die();
    await expect(
      publish({ ...publishing, brokerUrl: broker.url, scenario: season(1) }),
    ).rejects.toMatchObject({ code: 'BROKER_UNAVAILABLE' });
  });
});
