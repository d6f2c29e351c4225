/** What people are told when alarms come, go, and are seen otherwise by readings that come late. */
import { describe, expect, test } from 'vitest';
import type { BedHour, Change, Sample, Watch } from '../../services/core/watch/watch.js';
import { asAlarm } from '../../services/joining/alarm-keeper.js';
import { type Message, makeSeason, SHORT_SEASON, siteOf } from '../support/season.js';
import { NOW, openStation, type TestStation } from '../support/station.js';

const HOUR_ms = 3_600_000;
const HOT_C = 30;

const meanOf = (samples: readonly Sample[]): number =>
  samples.reduce((sum, { temperature = 0 }) => sum + temperature, 0) / samples.length;

/** By the mean of an hour alone: from 30 °C on a check, from 40 °C on to be unpacked. */
const plainWatch: Watch = {
  version: 'plain',
  open: (_bed, checkpoint) => {
    let state = (checkpoint === undefined ? 'none' : checkpoint) as 'none' | 'check' | 'unpack';
    return {
      step: ({ probes }: BedHour) => {
        const warm = Math.max(-50, ...[...probes.values()].map(meanOf));
        const next = probes.size === 0 ? state : warm >= 40 ? 'unpack' : warm >= HOT_C ? 'check' : 'none';
        const changes: Change[] = [];
        if (next !== state && state !== 'none')
          changes.push({ type: 'clear', kind: 'heating', action: state, subject: '' });
        if (next !== state && next !== 'none')
          changes.push({
            type: 'raise',
            kind: 'heating',
            action: next,
            subject: '',
            priority: 'high',
            evidence: { warm_C: warm },
            place: null,
          });
        state = next;
        return { changes, judgements: new Map(), flags: new Map() };
      },
      standing: () => ({ basis: 'plain', learning: false }),
      checkpoint: () => state,
    };
  },
};

const at = (hour: number, temperature: number): Message => ({
  topic: 'sandlarder/v1/test-ridge/probes/p01/readings',
  payload: JSON.stringify([
    { n: 'temperature', u: 'Cel', v: temperature, bt: (SHORT_SEASON.startAt + hour * HOUR_ms) / 1000 },
  ]),
});

function open(): TestStation {
  const station = openStation({ watch: plainWatch });
  station.load(siteOf(SHORT_SEASON));
  return station;
}

/** Events on their way to the console, in the order in which they were written. */
const told = (station: TestStation): string[] =>
  station.registry.outbox
    .due(Number.MAX_SAFE_INTEGER, 100)
    .filter(({ via }) => via === 'console')
    .map(({ body }) => {
      const { event, alarm } = JSON.parse(body) as { event: string; alarm: { action: string } };
      return `${event} ${alarm.action}`;
    });

function feed(station: TestStation, ...messages: Message[]): void {
  station.commit(messages);
  station.settle();
}

test('an alarm that comes and goes is told twice', () => {
  const station = open();
  feed(station, at(0, 20), at(1, 35), at(2, 20), at(4, 20));
  expect(told(station)).toEqual(['raised check', 'cleared check']);
});

test('a check that becomes an unpack is told as that, and not as over', () => {
  const station = open();
  feed(station, at(0, 20), at(1, 35), at(2, 45), at(4, 45));
  expect(told(station)).toEqual(['raised check', 'raised unpack']);
});

describe('readings that come late', () => {
  test('show that there was nothing: whoever was told is told so, and the alarm is no longer listed', () => {
    const station = open();
    feed(station, at(0, 20), at(1, 31), at(2, 20), at(4, 20));
    expect(told(station)).toEqual(['raised check', 'cleared check']);
    feed(station, at(1.5, 20));
    expect(told(station)).toEqual(['raised check', 'cleared check', 'withdrawn check']);
    expect(station.views.alarms({ limit: 10 }).alarms).toEqual([]);
  });

  test('show that it was graver: that is told, and not that the milder one is taken back', () => {
    const station = open();
    feed(station, at(0, 20), at(1, 35), at(2, 45), at(4, 45));
    feed(station, at(1.5, 55));
    expect(told(station)).toEqual(['raised check', 'raised unpack']);
    expect(station.views.alarms({ limit: 10 }).alarms.map(({ action }) => action)).toEqual(['unpack']);
  });

  test('move an alarm a little: nobody is told again, and the acknowledgement stays', () => {
    const station = open();
    feed(station, at(0, 20), at(3, 35), at(5, 35));
    const [first] = station.views.alarms({ limit: 10 }).alarms;
    station.views.acknowledge(first?.id ?? '', { by: 'keeper', note: 'seen' });
    feed(station, at(1, 35));
    const [moved] = station.views.alarms({ limit: 10 }).alarms;
    expect(moved?.id).not.toBe(first?.id);
    expect(moved).toMatchObject({ state: 'acknowledged', acknowledgement: { note: 'seen' } });
    expect(told(station)).toEqual(['raised check']);
  });

  test('show that what was told as over is not: it is told anew', () => {
    const station = open();
    feed(station, at(0, 35), at(1, 20), at(2, 20), at(4, 20));
    expect(told(station)).toEqual(['raised check', 'cleared check']);
    feed(station, at(1.5, 50), at(2.5, 50), at(4.5, 50));
    expect(told(station)).toEqual(['raised check', 'cleared check', 'raised check']);
    expect(station.views.alarms({ limit: 10 }).alarms[0]?.clearedAt).toBeNull();
  });
});

test('an alarm is an alert of CAP while it lasts, and an update of it afterwards', () => {
  const station = open();
  feed(station, at(0, 20), at(1, 35), at(3, 35));
  const id = station.views.alarms({ limit: 10 }).alarms[0]?.id ?? '';
  expect(station.views.cap(id)).toMatch(/<msgType>Alert<\/msgType>/);
  feed(station, at(4, 20), at(6, 20));
  const update = station.views.cap(id);
  expect(update).toMatch(/<msgType>Update<\/msgType>/);
  expect(update).toContain(`<references>test-ridge.sandlarder.invalid,${id}.raised,`);
  expect(() => station.views.cap('none')).toThrow(/no alarm has the id/);
});

describe('silence for a time', () => {
  const alarmOf = (station: TestStation) => station.views.alarms({ limit: 10 }).alarms[0];

  test('is a state of its own, ends by itself, and the condition goes on', () => {
    const station = open();
    feed(station, at(0, 20), at(1, 35), at(3, 35));
    const id = alarmOf(station)?.id ?? '';
    expect(station.views.shelve(id, { by: 'keeper', hours: 6 })).toMatchObject({
      state: 'shelved',
      shelving: { by: 'keeper', at: NOW, until: NOW + 6 * HOUR_ms },
    });
    expect(station.views.bed('pit-t').stands).toBe('sound');
    expect(station.views.alarms({ limit: 10, state: 'unacknowledged' }).alarms).toEqual([]);
    expect(station.views.alarms({ limit: 10, state: 'shelved' }).alarms).toHaveLength(1);
    const row = station.registry.alarms.get(id);
    expect(row && asAlarm(row, NOW + 6 * HOUR_ms).state).toBe('unacknowledged');
    feed(station, at(4, 20), at(6, 20));
    expect(alarmOf(station)?.state).toBe('returned-unacknowledged');
  });

  test('is refused for an alarm that is over or is none', () => {
    const station = open();
    feed(station, at(0, 20), at(1, 35), at(2, 20), at(4, 20));
    const id = alarmOf(station)?.id ?? '';
    expect(() => station.views.shelve(id, { by: 'keeper', hours: 6 })).toThrow(/expected one that lasts/);
    expect(() => station.views.shelve('none', { by: 'keeper', hours: 6 })).toThrow(/no alarm has the id/);
  });
});

test('an alarm says what an inspection found of it', () => {
  const station = open();
  feed(station, at(0, 20), at(1, 35), at(3, 35));
  const foundOut = () => station.views.alarms({ limit: 10 }).alarms[0]?.foundOut;
  expect(foundOut()).toEqual({ verdict: 'unseen', lookedAt: null });
  const looked = SHORT_SEASON.startAt + 5 * HOUR_ms;
  station.views.inspect('pit-t', {
    ...{ at: looked, by: 'keeper', opened: true, repacked: false },
    found: ['rot'],
  });
  expect(foundOut()).toEqual({ verdict: 'right', lookedAt: looked });
});

describe('a bed that was repacked', () => {
  test('clears its alarm at that time, and whoever did it is not told that readings are normal', () => {
    const station = openStation();
    const season = makeSeason();
    station.load(season.site);
    station.commit(season.messages);
    station.settle();
    const at = SHORT_SEASON.startAt + SHORT_SEASON.days * 24 * HOUR_ms + 20 * 60_000;
    const before = told(station);
    station.views.inspect('pit-t', { at, by: 'keeper', opened: true, repacked: true, found: ['rot'] });
    const { alarms } = station.views.alarms({ limit: 10 });
    const open = alarms.filter(({ clearedAt }) => clearedAt === null || clearedAt >= at);
    expect(open.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['heating', 'damp', 'wetting']));
    expect(open.map(({ clearedAt }) => clearedAt)).toEqual(open.map(() => at));
    expect(told(station)).toEqual(before);
  });

  test('cannot have been so before it was filled', () => {
    const station = open();
    station.station.refresh();
    const body = {
      at: SHORT_SEASON.startAt - 1,
      by: 'keeper',
      opened: true,
      repacked: false,
      found: ['nothing' as const],
    };
    expect(() => station.views.inspect('pit-t', body)).toThrow(
      /at: expected a time after the bed was filled/,
    );
  });
});
