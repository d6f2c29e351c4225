/** Older readings go into their hours while the station stands: what was said stays, what comes goes on. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { DAY_ms, HOUR_ms } from '../../services/core/model/time.js';
import { sandWatch } from '../../services/core/watch/sand-watch.js';
import { dailyMeans } from '../../services/joining/bed-warmth.js';
import { CalibrationDesk } from '../../services/joining/calibration-desk.js';
import { goalOf } from '../../services/joining/older-goal.js';
import { OlderReadings } from '../../services/joining/older-readings.js';
import { bodyOf, shiftedBy } from '../support/calibrating.js';
import { HandTimer } from '../support/hand-timer.js';
import { temporaryDirectory } from '../support/open.js';
import { type Message, makeSeason, SHORT_SEASON } from '../support/season.js';
import { NOW, openStation, type TestStation } from '../support/station.js';

/** A sound pit, days enough for a state that is kept for ever. */
const SEASON = makeSeason({ ...SHORT_SEASON, days: 75, rotFromDay: 1000, wetFromDay: 1000 });

/** Warmth that adds up to no alarm: one that is open would hold readings back. */
const SITE = (() => {
  const site = structuredClone(SEASON.site) as { site: object; beds: object[] };
  const sums = ['sprouting', 'weevil_puncticollis', 'weevil_brunneus', 'weevil_formicarius'];
  const thresholds = Object.fromEntries(sums.map((name) => [`${name}_sum_C_days`, 2000]));
  return { ...site, beds: site.beds.map((bed) => ({ ...bed, thresholds })) };
})();

const START = SHORT_SEASON.startAt;
const END = START + 75 * DAY_ms;
const KEEP_days = 30;

/** The first day on which a state of a watch is kept for ever and that is old enough. */
const MARK = Math.floor((END - KEEP_days * DAY_ms) / (30 * DAY_ms)) * 30 * DAY_ms;

interface Opened {
  readonly directory?: string;
  readonly watch?: typeof sandWatch;
}

function olderOn(station: TestStation, now = END) {
  const errors: unknown[] = [];
  const timer = new HandTimer();
  const older = new OlderReadings(station.station, {
    ...{ keep_ms: KEEP_days * DAY_ms, now: () => now, clock: () => 0 },
    ...{ after: timer.after, onError: (error) => errors.push(error) },
  });
  return { older, timer, errors };
}

function foldAll(station: TestStation, now = END): void {
  const { older } = olderOn(station, now);
  while (older.step());
}

let livedOnce: Buffer | undefined;

/** The season is lived through once; each test has a copy of its database. */
function livedIn(): string {
  const directory = temporaryDirectory();
  const file = join(directory, 'sandlarder.db');
  if (livedOnce) writeFileSync(file, livedOnce);
  else {
    const station = openStation({ directory });
    station.load(SITE, START);
    station.commit(SEASON.messages);
    station.close();
    livedOnce = readFileSync(file);
  }
  return directory;
}

function lived({ directory = livedIn(), watch = sandWatch }: Opened = {}) {
  const station = openStation({ watch, directory });
  station.station.inTransaction(() => undefined);
  const key = station.archive.keys.find('test-ridge', 'p01') as number;
  const judged = () => JSON.stringify(station.archive.judged.read(key, 0, Number.MAX_SAFE_INTEGER));
  return { ...station, key, judged };
}

const late = (time: number, value: number, probe = 'p01'): Message => ({
  topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
  payload: JSON.stringify([{ n: 'temperature', u: 'Cel', v: value, t: time / 1000 }]),
});

describe('a season of which the beginning went into its hours', () => {
  test('keeps every alarm and every judgement, and goes on from there', () => {
    const station = lived();
    const before = { alarms: station.alarmText(), judged: station.judged() };
    const begunAt = station.station.watchers.get('pit-t')?.begunAt;
    const known = station.station.directory.beds.get('pit-t') as never;
    const days = dailyMeans(station.station, known, START, END);
    foldAll(station);
    expect(MARK).toBeGreaterThan(START);
    expect(station.archive.fullRate.since(station.key)).toBe(MARK);
    expect({ alarms: station.alarmText(), judged: station.judged() }).toEqual(before);
    const after = dailyMeans(station.station, known, START, END);
    expect(after.map(({ at }) => at)).toEqual(days.map(({ at }) => at));
    for (const [at, { mean_C }] of after.entries()) expect(mean_C).toBeCloseTo(days[at]?.mean_C as number, 9);

    station.commit([late(END + 2 * HOUR_ms, 21)]);
    expect(station.station.watchers.get('pit-t')?.begunAt).toBe(begunAt);
    expect(station.judged().startsWith(before.judged.slice(0, -1))).toBe(true);

    const from = MARK - 20 * DAY_ms;
    const [series] = station.views.series('pit-t', { from, to: END, points: 600 });
    expect(series?.time[0]).toBeLessThan(from + DAY_ms);
    expect(series?.temperature_C.filter((value) => value === null)).toEqual([]);
    expect(station.views.beds()[0]?.probes[0]?.latest).not.toBeNull();
  });

  test('is not judged again for what comes late, which stands in its hour', () => {
    const station = lived();
    foldAll(station);
    const before = station.judged();
    const at = START + 3 * DAY_ms + 60_000;
    station.commit([late(at, 60)]);
    station.commit([late(at, 60)]);
    expect(station.station.dirty()).toEqual([]);
    foldAll(station);
    const hour = Math.floor(at / HOUR_ms) * HOUR_ms;
    expect(station.archive.hours.get(station.key, hour)?.values.temperature).toMatchObject({
      count: 2,
      greatest: 60,
    });
    expect(station.judged()).toBe(before);
  });

  test('is judged again from the mark, the same, where readings of after it come late', () => {
    const at = MARK + 5 * DAY_ms + 60_000;
    const folded = lived();
    foldAll(folded);
    const whole = lived();
    for (const station of [folded, whole]) {
      station.commit([late(at, 21.5)]);
      station.settle();
    }
    expect(folded.judged()).toBe(whole.judged());
    expect(folded.alarmText()).toBe(whole.alarmText());
  });

  test('is corrected by a calibration that is entered later, in its hours too', () => {
    const station = lived();
    foldAll(station);
    const whole = { from: MARK - 10 * DAY_ms, to: MARK + 10 * DAY_ms, points: 5000 };
    const shown = () =>
      station.views.series('pit-t', whole).find(({ probe }) => probe === 'p01')?.temperature_C ?? [];
    const [before, judged] = [shown(), station.archive.judged.read(station.key, 0, MARK)];
    const desk = new CalibrationDesk(station.station, () => NOW);
    desk.add(bodyOf({ from: START, doneAt: START, points: shiftedBy(-1) }));
    station.settle();
    const after = shown();
    expect(after).toHaveLength(before.length);
    for (const [at, value] of after.entries()) expect(value).toBeCloseTo((before[at] as number) - 1, 5);
    expect(station.archive.judged.read(station.key, 0, MARK)).toEqual(judged);
    expect(station.archive.judged.read(station.key, MARK, END).length).toBeGreaterThan(0);
  });

  test('keeps what was said before the mark when a newer watch judges again', () => {
    const station = lived();
    foldAll(station);
    const before = station.archive.judged.read(station.key, 0, MARK);
    const alarms = station.views.alarms({ limit: 100, to: MARK } as never).alarms;
    station.close();
    const newer = lived({ directory: station.directory, watch: { ...sandWatch, version: 'newer' } });
    newer.station.inTransaction(() => newer.station.refresh());
    newer.settle();
    expect(newer.station.failures.size).toBe(0);
    expect(newer.archive.judged.read(newer.key, 0, MARK)).toEqual(before);
    expect(newer.views.alarms({ limit: 100, to: MARK } as never).alarms.map(({ id }) => id)).toEqual(
      alarms.map(({ id }) => id),
    );
    expect(newer.archive.judged.read(newer.key, MARK, END).length).toBeGreaterThan(40 * 24 - 1);
  });
});

describe('nothing goes', () => {
  const goalNow = (station: TestStation, now = END): number => {
    const probe = station.station.directory.find('test-ridge', 'p01');
    if (!probe) throw new Error('expected probe p01');
    return goalOf(station.station, probe, { keep_ms: KEEP_days * DAY_ms, now });
  };

  test('by a clock that runs ahead', () => {
    const station = lived();
    expect(goalNow(station, END + 9000 * DAY_ms)).toBe(MARK);
    expect(goalNow(station, START)).toBeLessThan(START);
  });

  test('while the bed waits to be judged again', () => {
    const station = lived();
    station.commit([late(END - 2 * DAY_ms + 60_000, 21)]);
    expect(station.station.dirty()).toHaveLength(1);
    expect(goalNow(station)).toBe(0);
    station.settle();
    expect(goalNow(station)).toBe(MARK);
  });

  test('where no state of the watch is there to go on from', () => {
    const station = lived();
    station.database.prepare('DELETE FROM watch_checkpoint WHERE hour = ?').run(MARK);
    expect(goalNow(station)).toBeLessThan(MARK);
  });

  test('that an open alarm rests on', () => {
    const station = lived();
    const alarm = { bed: 'pit-t', kind: 'heating', priority: 'high', action: 'unpack', subject: '' } as const;
    const open = { ...alarm, raisedAt: MARK, clearedAt: null, evidence: {}, place: null };
    station.registry.alarms.put('one', 'test-ridge', open as never, 'text');
    expect(goalNow(station)).toBeLessThan(MARK);
  });
});

describe('by itself', () => {
  test('it goes step by step, rests, and looks again later', () => {
    const station = lived();
    const { older, timer, errors } = olderOn(station);
    older.open();
    timer.pass(HOUR_ms / 2);
    expect(errors).toEqual([]);
    expect(station.archive.fullRate.since(station.key)).toBe(MARK);
    expect(timer.waiting).toBe(1);
    station.commit([late(START + 60_000, 21)]);
    expect(station.archive.folding.waits(station.key)).toBe(true);
    timer.pass(HOUR_ms);
    expect(station.archive.folding.waits(station.key)).toBe(false);
    older.close();
    expect(timer.waiting).toBe(0);
  });
});
