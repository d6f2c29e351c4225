/** Alarms that become better known while they last: what is at rest, and what people are told. */
import { describe, expect, test } from 'vitest';
import { pointingWatch } from '../support/pointing-watch.js';
import { type Message, SHORT_SEASON, seeded, shuffled, siteOf } from '../support/season.js';
import { inBatches, openStation, type TestStation } from '../support/station.js';

const HOUR_ms = 3_600_000;

/** Hours past the hour at which probes speak: late enough that the hour before is judged. */
const SPOKEN_h = 0.2;

const at = (hour: number, probe: string, temperature: number): Message => ({
  topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
  payload: JSON.stringify([
    {
      n: 'temperature',
      u: 'Cel',
      v: temperature,
      bt: (SHORT_SEASON.startAt + (hour + SPOKEN_h) * HOUR_ms) / 1000,
    },
  ]),
});

/** An hour in which p01 is so warm, and the place is at x with a radius. */
const pointed = (hour: number, warm_C: number, x: number, radius: number): Message[] => [
  at(hour, 'p02', x),
  at(hour, 'p03', radius),
  at(hour, 'p01', warm_C),
];

function open(): TestStation {
  const station = openStation({ watch: pointingWatch });
  station.load(siteOf(SHORT_SEASON));
  return station;
}

function feed(station: TestStation, ...messages: Message[]): void {
  station.commit(messages);
  station.settle();
}

const told = (station: TestStation): string[] =>
  station.registry.outbox
    .due(Number.MAX_SAFE_INTEGER, 100)
    .filter(({ via }) => via === 'console')
    .map(({ body }) => {
      const { event, alarm } = JSON.parse(body) as { event: string; alarm: { place: { x: number } | null } };
      return `${event} ${alarm.place?.x ?? 'nowhere'}`;
    });

const alarms = (station: TestStation) => station.views.alarms({ limit: 100 }).alarms;

/** Raised at x 80 with a radius of 60 at the end of hour 0, told by a reading of hour 1. */
function raised(): TestStation {
  const station = open();
  feed(station, ...pointed(0, 35, 80, 60), ...pointed(1, 35, 80, 60));
  expect(told(station)).toEqual(['raised 80']);
  return station;
}

describe('a refinement', () => {
  test('moves the place, the evidence and the text of the alarm, and not its time or its name', () => {
    const station = raised();
    const [before] = alarms(station);
    feed(station, ...pointed(2, 36, 95, 60), ...pointed(3, 36, 95, 60));
    const [after] = alarms(station);
    expect(after).toMatchObject({ id: before?.id, raisedAt: before?.raisedAt, state: 'unacknowledged' });
    expect(after).toMatchObject({ place: { x: 95 }, evidence: { warm_C: 36 } });
    expect(after?.text).not.toBe(before?.text);
  });

  test('by up to 40 cm is told to nobody', () => {
    const station = raised();
    feed(station, ...pointed(2, 35, 120, 60), ...pointed(3, 35, 120, 60));
    expect(alarms(station)[0]?.place?.x).toBe(120);
    expect(told(station)).toEqual(['raised 80']);
  });

  test('by more than 40 cm from what people were told is told, though it went in small steps', () => {
    const station = raised();
    for (const [hour, x] of [90, 100, 110, 121, 130].entries())
      feed(station, ...pointed(hour + 2, 35, x, 60), ...pointed(hour + 3, 35, x, 60));
    expect(told(station)).toEqual(['raised 80', 'refined 121']);
  });

  test('to half the radius is told', () => {
    const station = raised();
    feed(station, ...pointed(2, 35, 80, 30), ...pointed(3, 35, 80, 30));
    expect(told(station)).toEqual(['raised 80', 'refined 80']);
  });

  test('is told once, however far it moves after that', () => {
    const station = raised();
    for (const [hour, x] of [130, 20, 130, 20].entries())
      feed(station, ...pointed(hour + 2, 35, x, 60), ...pointed(hour + 3, 35, x, 60));
    expect(told(station)).toEqual(['raised 80', 'refined 130']);
  });

  test('is told to nobody once the alarm is acknowledged', () => {
    const station = raised();
    station.views.acknowledge(alarms(station)[0]?.id ?? '', { by: 'keeper', note: '' });
    feed(station, ...pointed(2, 35, 140, 60), ...pointed(3, 35, 140, 60));
    expect(alarms(station)[0]).toMatchObject({ state: 'acknowledged', place: { x: 140 } });
    expect(told(station)).toEqual(['raised 80']);
  });

  test('says in its line where to dig instead', () => {
    const station = raised();
    feed(station, ...pointed(2, 35, 140, 60), ...pointed(3, 35, 140, 60));
    const bodies = station.registry.outbox
      .due(Number.MAX_SAFE_INTEGER, 100)
      .map(({ body }) => JSON.parse(body));
    expect(bodies.at(-1)).toMatchObject({ event: 'refined', bedName: 'Pit T', alarm: { place: { x: 140 } } });
    expect(bodies.at(-1).line).toMatch(/^Pit T: dig here instead: .+\.$/);
  });

  // A day ends between hours 15 and 16 here: the bed is judged again from a state in which the alarm was open.
  test('that late readings show never to have been is taken back, and what was known before stands', () => {
    const station = raised();
    const [before] = alarms(station);
    feed(station, ...pointed(20, 36, 110, 60), at(21, 'p02', 80), at(22, 'p02', 80));
    expect(alarms(station)[0]).toMatchObject({ place: { x: 110 }, evidence: { warm_C: 36 } });
    feed(station, at(20.1, 'p02', 50));
    expect(alarms(station)).toEqual([before]);
  });
});

describe('faults of two probes', () => {
  test('are two alarms, each with its own end', () => {
    const station = open();
    feed(station, at(0, 'p03', 85), at(0, 'p02', 85), at(1, 'p03', 20), at(1, 'p02', 85), at(3, 'p02', 85));
    const found = alarms(station).map(({ id, clearedAt }) => [id, clearedAt !== null]);
    expect(found).toEqual([
      ['test-ridge.pit-t.probe-fault.service.p03.20260504T090000Z', true],
      ['test-ridge.pit-t.probe-fault.service.p02.20260504T090000Z', false],
    ]);
  });

  test('that follow each other are told as two: the end of one is no graver one of the other', () => {
    const station = open();
    feed(station, at(0, 'p03', 85), at(0, 'p02', 20), at(1, 'p03', 20), at(1, 'p02', 85), at(3, 'p02', 85));
    expect(told(station).sort()).toEqual(['cleared nowhere', 'raised nowhere', 'raised nowhere']);
  });
});

describe('any order of readings gives the same alarms, places and flags', () => {
  const random = seeded(7);
  const value = (hour: number, probe: string): number =>
    random() < 0.1 ? 85 : probe === 'p01' ? 20 + 15 * Math.sin(hour / 20) : 20 + Math.floor(random() * 100);
  const messages = Array.from({ length: 9 * 24 * 2 }, (_, half) => half / 2).flatMap((hour) =>
    ['p01', 'p02', 'p03', 'p09'].filter(() => random() < 0.9).map((id) => at(hour, id, value(hour, id))),
  );

  function atRest(batches: readonly (readonly Message[])[]): string {
    const station = open();
    for (const batch of batches) feed(station, ...batch);
    const rows = (table: string, order: string) =>
      station.database.prepare(`SELECT * FROM ${table} ORDER BY ${order}`).all();
    const flags = rows('flag', 'probe, time, quantity, bed');
    return JSON.stringify([JSON.parse(station.alarmText()), flags, rows('judged_hour', 'probe, hour')]);
  }

  let inOrder: string;

  test('there is enough in it to tell a difference', () => {
    inOrder = atRest([messages]);
    const [found, flags] = JSON.parse(inOrder) as [{ kind: string; place: object | null }[], unknown[]];
    expect(found.filter(({ kind }) => kind === 'heating').length).toBeGreaterThan(1);
    expect(found.filter(({ kind }) => kind === 'probe-fault').length).toBeGreaterThan(20);
    expect(flags.length).toBeGreaterThan(100);
  });

  test('in small commits', () => {
    expect(atRest(inBatches(messages, 40))).toBe(inOrder);
  });

  test('backwards', () => {
    expect(atRest(inBatches([...messages].reverse(), 150))).toBe(inOrder);
  });

  test.each([1, 2, 3, 4])('mostly in order, some late, seed %i', (seed) => {
    const chance = seeded(seed);
    const late = messages.map((message) => ({ message, late: chance() < 0.05 }));
    const first = late.filter((entry) => !entry.late).map(({ message }) => message);
    const second = shuffled(
      late.filter((entry) => entry.late).map(({ message }) => message),
      chance,
    );
    expect(atRest([...inBatches(first, 100), ...inBatches(second, 15)])).toBe(inOrder);
  });
});
