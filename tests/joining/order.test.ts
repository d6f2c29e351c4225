import { beforeAll, describe, expect, test } from 'vitest';
import { type Message, makeSeason, SHORT_SEASON, seeded, shuffled } from '../support/season.js';
import { inBatches, openStation } from '../support/station.js';

const season = makeSeason();

function alarmsAfter(batches: readonly (readonly Message[])[], settleEvery = 1): string {
  const station = openStation();
  station.load(season.site);
  batches.forEach((batch, index) => {
    station.commit(batch);
    if (index % settleEvery === 0) station.settle();
  });
  station.settle();
  return station.alarmText();
}

/** Every record a message of its own. */
function splitUp(messages: readonly Message[]): Message[] {
  return messages.flatMap(({ topic, payload }) => {
    const [first, ...others] = JSON.parse(payload) as Record<string, unknown>[];
    return [first, ...others.map((record) => ({ bn: first?.['bn'], bt: first?.['bt'], ...record }))].map(
      (record) => ({
        topic,
        payload: JSON.stringify([record]),
      }),
    );
  });
}

describe('the same readings give the same alarms', () => {
  let inOrder: string;

  beforeAll(() => {
    expect(SHORT_SEASON.days).toBeLessThan(60);
  });

  test('in order: a heating and a damp alarm are raised', () => {
    inOrder = alarmsAfter(inBatches(season.messages, 500));
    const alarms = JSON.parse(inOrder) as { kind: string; action: string }[];
    expect(alarms.map(({ kind, action }) => `${kind} ${action}`)).toContain('heating unpack');
    expect(alarms.map(({ kind, action }) => `${kind} ${action}`)).toContain('damp unpack');
  });

  test('one message at a commit', () => {
    const most = season.messages.slice(0, -600);
    const last = season.messages.slice(-600);
    expect(alarmsAfter([...inBatches(most, 500), ...inBatches(last, 1)], 100)).toBe(inOrder);
  });

  test('all in one commit', () => {
    expect(alarmsAfter([season.messages])).toBe(inOrder);
  });

  test('backwards', () => {
    expect(alarmsAfter(inBatches([...season.messages].reverse(), 1200))).toBe(inOrder);
  });

  test('one probe after the other, the shade last', () => {
    const byProbe = [...season.messages].sort((one, other) => (one.topic < other.topic ? -1 : 1));
    expect(alarmsAfter(inBatches(byProbe, 1200))).toBe(inOrder);
  });

  test.each([1, 2, 3])('shuffled, doubled and split, seed %i', (seed) => {
    const random = seeded(seed);
    const messages = shuffled([...season.messages, ...splitUp(season.messages)], random);
    expect(alarmsAfter(inBatches(messages, 1500), 1 + Math.floor(random() * 3))).toBe(inOrder);
  });

  test('the site described only after half of the readings', () => {
    const station = openStation();
    const half = season.messages.length / 2;
    station.commit(season.messages.slice(half));
    station.load(season.site);
    station.commit(season.messages.slice(0, half));
    station.settle();
    expect(station.alarmText()).toBe(inOrder);
  });

  test('stopped and started again between any two commits', () => {
    const batches = inBatches(season.messages, 900);
    let station = openStation();
    station.load(season.site);
    for (const batch of batches) {
      station.commit(batch);
      station.close();
      station = openStation({ directory: station.directory });
    }
    station.settle();
    expect(station.alarmText()).toBe(inOrder);
  });
});
