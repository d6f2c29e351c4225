import { describe, expect, test } from 'vitest';
import { DAY_ms } from '../../services/core/model/time.js';
import { sandWatch } from '../../services/core/watch/sand-watch.js';
import type { Watch } from '../../services/core/watch/watch.js';
import { CatchUp } from '../../services/joining/catch-up.js';
import { makeSeason, SHORT_SEASON, siteOf } from '../support/season.js';
import { openStation, type TestStation } from '../support/station.js';

/** Time that passes only when it is waited for. */
function handTimer() {
  const waiting: { at: number; call: () => void }[] = [];
  let now = 0;
  return {
    clock: () => now,
    after: (delay_ms: number, call: () => void) => {
      const entry = { at: now + delay_ms, call };
      waiting.push(entry);
      return () => void waiting.splice(waiting.indexOf(entry), 1);
    },
    get planned(): number {
      return waiting.length;
    },
    pass: () => {
      const next = waiting.shift();
      if (!next) return undefined;
      const rested = next.at - now;
      now = next.at;
      next.call();
      return rested;
    },
  };
}

const season = makeSeason({ ...SHORT_SEASON, days: 6 });
const early = season.messages.slice(0, season.messages.length / 2);
const late = season.messages.slice(season.messages.length / 2);

function dirtyStation(watch: Watch = sandWatch) {
  const station = openStation({ watch });
  station.load(siteOf(SHORT_SEASON));
  station.commit(late);
  station.commit(early);
  return station;
}

test('late readings are judged in one run, and then there is nothing to do', () => {
  const { station } = dirtyStation();
  const timer = handTimer();
  const catchUp = new CatchUp(station, { ...timer, onError: () => undefined, onDone: () => undefined });
  expect(station.dirty()).toHaveLength(1);
  catchUp.kick();
  catchUp.kick();
  expect(timer.planned).toBe(1);
  timer.pass();
  expect(station.dirty()).toEqual([]);
  expect(timer.planned).toBe(0);
});

test('after closing nothing is judged any more', () => {
  const { station } = dirtyStation();
  const timer = handTimer();
  const catchUp = new CatchUp(station, { ...timer, onError: () => undefined, onDone: () => undefined });
  catchUp.kick();
  catchUp.close();
  expect(timer.planned).toBe(0);
  expect(station.dirty()).toHaveLength(1);
});

test('a bed whose watch fails is tried again after a long rest', () => {
  let broken = false;
  const watch: Watch = {
    version: 'sometimes',
    open: () => ({
      step: () => {
        if (broken) throw new Error('cannot judge');
        return { changes: [], judgements: new Map(), flags: new Map() };
      },
      standing: () => ({ basis: '', learning: false }),
      checkpoint: () => '{}',
    }),
  };
  const { station } = dirtyStation(watch);
  broken = true;
  const timer = handTimer();
  const catchUp = new CatchUp(station, { ...timer, onError: () => undefined, onDone: () => undefined });
  catchUp.kick();
  timer.pass();
  expect(station.failures.get('pit-t')).toBe('cannot judge');
  broken = false;
  expect(timer.pass()).toBe(5000);
  expect(station.failures.size).toBe(0);
  expect(station.dirty()).toEqual([]);
});

/** Long enough for water to be told. */
const WEEKS = { ...SHORT_SEASON, days: 12, rotFromDay: 11, wetFromDay: 8 };

describe('judged in pieces', () => {
  const { messages } = makeSeason(WEEKS);
  const half = messages.length / 2;
  const [first, second] = [messages.slice(0, half), messages.slice(half)];

  /** The second half was judged before the first came. */
  function stationWith(some: typeof messages): TestStation {
    const station = openStation();
    station.load(siteOf(SHORT_SEASON));
    station.commit(second);
    station.commit(some);
    return station;
  }

  function startedAgain(before: TestStation): TestStation {
    before.close();
    const station = openStation({ directory: before.directory });
    station.station.refresh();
    return station;
  }

  /** All that judging writes. */
  const written = ({ database, alarmText }: TestStation) => [
    alarmText(),
    ...['judged_hour', 'flag', 'watch_checkpoint', 'watch_mark', 'outbox'].map((table) =>
      database.prepare(`SELECT * FROM ${table}`).all(),
    ),
  ];

  /** One piece. @returns whether all is judged */
  function piece({ station }: TestStation, days: number): boolean {
    station.inTransaction(() => station.judgeAgain('pit-t', days * DAY_ms));
    return station.dirty().length === 0;
  }

  let judgedWhole: ReturnType<typeof written> | undefined;
  const expected = (): ReturnType<typeof written> => {
    if (judgedWhole) return judgedWhole;
    const whole = stationWith(first);
    expect(piece(whole, Number.POSITIVE_INFINITY)).toBe(true);
    judgedWhole = written(whole);
    return judgedWhole;
  };

  test('comes to the same, and nobody is told before the end', () => {
    const station = stationWith(first);
    const before = station.alarmText();
    let pieces = 1;
    for (; !piece(station, 2); pieces += 1) expect(station.alarmText()).toBe(before);
    expect(pieces).toBe(7);
    expect(written(station)).toEqual(expected());
    expect(JSON.parse(station.alarmText()).length).toBeGreaterThan(0);
  });

  test('comes to the same when it is killed after each piece, and nothing is judged twice', () => {
    let station = stationWith(first);
    let pieces = 1;
    for (; !piece(station, 3); pieces += 1) station = startedAgain(station);
    expect(pieces).toBe(5);
    expect(written(station)).toEqual(expected());
  });

  test.each([
    ['of a time that was judged', 0.4],
    ['of the first hours', 0],
    ['of a time that comes', 0.9],
  ])('comes to the same when readings %s come between two pieces, and after a kill', (_, share) => {
    const at = Math.floor(share * half) + 3;
    const late = first.slice(at, at + 3);
    let station = stationWith(first.filter((message) => !late.includes(message)));
    for (let pieces = 0; pieces < 2; pieces += 1) expect(piece(station, 2)).toBe(false);
    station.commit(late);
    station = startedAgain(station);
    station.settle();
    expect(written(station)).toEqual(expected());
  });

  test('goes on after a piece whose transaction failed', () => {
    const station = stationWith(first);
    piece(station, 3);
    expect(() =>
      station.station.inTransaction(() => {
        station.station.judgeAgain('pit-t', 3 * DAY_ms);
        throw new Error('disk full');
      }),
    ).toThrow('disk full');
    station.station.refresh();
    station.settle();
    expect(written(station)).toEqual(expected());
  });
});
