/** Calibrations and what was judged before them: whenever they are entered, the same comes of it. */
import { describe, expect, test } from 'vitest';
import type { CalibrationBody } from '../../services/core/model/calibration-record.js';
import { DAY_ms, HOUR_ms } from '../../services/core/model/time.js';
import { beside, bodyOf, judgedText, openDesk, START, seriesOf, shiftedBy } from '../support/calibrating.js';
import { makeSeason, SHORT_SEASON, seeded, shuffled } from '../support/season.js';
import { inBatches, openStation } from '../support/station.js';

const season = makeSeason({ ...SHORT_SEASON, days: 16, rotFromDay: 8, wetFromDay: 900 });

const dayAt = (day: number): number => START + day * DAY_ms;

const OFF: CalibrationBody = bodyOf({ from: dayAt(9), doneAt: dayAt(9), points: shiftedBy(-1.5) });

/** Two of p01, one of them between, one of the shade, one of a humidity. */
const SEVERAL: readonly CalibrationBody[] = [
  OFF,
  bodyOf({ from: dayAt(3) + 20 * 60_000, doneAt: dayAt(12), points: shiftedBy(0.4) }),
  bodyOf({ probe: 'p09', from: dayAt(5), doneAt: dayAt(5), points: shiftedBy(0.8) }),
  bodyOf({
    ...{ probe: 'p02', quantity: 'humidity', from: dayAt(6), doneAt: dayAt(6) },
    points: [beside(40, 42), beside(80, 82)],
  }),
];

/** With the calibrations there before any reading. */
function calibratedFirst(bodies: readonly CalibrationBody[]) {
  const station = openDesk(undefined, season.site);
  for (const body of bodies) station.desk.add(body);
  for (const batch of inBatches(season.messages, 500)) station.commit(batch);
  station.settle();
  return station;
}

/** With the readings there before any calibration. */
function readFirst() {
  const station = openDesk(undefined, season.site);
  station.commit(season.messages);
  station.settle();
  return station;
}

type Both = ReturnType<typeof readFirst>;

/** Without the ids, which are drawn. */
const allOf = (station: Both): string =>
  judgedText(station) + JSON.stringify(['p01', 'p02', 'p03'].map((probe) => seriesOf(station, probe)));

describe('a calibration dated back', () => {
  test('changes what was judged since its time, and nothing before it', () => {
    const station = readFirst();
    const key = station.station.directory.find('test-ridge', 'p01')?.key ?? -1;
    const rows = (from: number, to: number) => JSON.stringify(station.archive.judged.read(key, from, to));
    const [early, late] = [rows(0, dayAt(9)), rows(dayAt(9), dayAt(16))];
    station.desk.add(OFF);
    expect(station.station.dirty()).toHaveLength(1);
    station.settle();
    expect(station.station.dirty()).toEqual([]);
    expect(rows(0, dayAt(9))).toBe(early);
    expect(rows(dayAt(9), dayAt(16))).not.toBe(late);
  });

  test('gives what a station gives that knew it before the readings came', () => {
    const station = readFirst();
    const raw = allOf(station);
    for (const body of SEVERAL) station.desk.add(body);
    station.settle();
    expect(allOf(station)).not.toBe(raw);
    expect(allOf(station)).toBe(allOf(calibratedFirst(SEVERAL)));
  });

  test('is judged after a restart, where the program stopped before it came to that', () => {
    const before = readFirst();
    before.desk.add(OFF);
    before.close();
    const after = openDesk(openStation({ directory: before.directory }), season.site);
    after.settle();
    expect(allOf(after)).toBe(allOf(calibratedFirst([OFF])));
  });

  test('of the shade alone is judged in the beds that see it', () => {
    const shade = { ...OFF, probe: 'p09' };
    const station = readFirst();
    const raw = allOf(station);
    station.desk.add(shade);
    station.settle();
    expect(allOf(station)).not.toBe(raw);
    expect(allOf(station)).toBe(allOf(calibratedFirst([shade])));
  });

  test('before everything gives an alarm of the past where the raw values gave another', () => {
    const bodies = [bodyOf({ from: START, doneAt: START, points: [beside(10, 8), beside(30, 30)] })];
    const station = readFirst();
    const raw = station.alarmText();
    for (const body of bodies) station.desk.add(body);
    station.settle();
    expect(station.alarmText()).not.toBe(raw);
    expect(station.alarmText()).toBe(calibratedFirst(bodies).alarmText());
  });
});

describe('the same calibrations and readings give the same', () => {
  test.each([1, 2, 3])('in whatever order they come, with a restart between, seed %i', (seed) => {
    const random = seeded(seed);
    const steps = shuffled([...inBatches(shuffled(season.messages, random), 400), ...SEVERAL], random);
    let station = openDesk(undefined, season.site);
    steps.forEach((step, at) => {
      if ('probe' in step) station.desk.add(step);
      else station.commit(step);
      if (random() < 0.3) station.settle();
      if (at !== 3) return;
      station.close();
      station = openDesk(openStation({ directory: station.directory }), season.site);
    });
    station.settle();
    expect(allOf(station)).toBe(allOf(calibratedFirst(SEVERAL)));
  });

  test('with one that was wrong and was replaced as without it', () => {
    const station = readFirst();
    const wrong = station.desk.add({ ...OFF, from: dayAt(4), points: shiftedBy(6) });
    station.settle();
    station.desk.add({ ...OFF, supersedes: wrong.id });
    station.settle();
    expect(allOf(station)).toBe(allOf(calibratedFirst([OFF])));
  });
});

describe('the next calibration of a probe', () => {
  const site = season.site as { site: object };
  const often = { ...site, site: { ...site.site, thresholds: { calibrate_temperature_days: 7 } } };
  const dueOf = (station: Both): unknown[] =>
    station.views
      .alarms({ limit: 100 })
      .alarms.filter(({ evidence }) => evidence['fault'] === 'calibration-due')
      .map(({ kind, action, subject, raisedAt, clearedAt, evidence }) => ({
        ...{ kind, action, subject, raisedAt, clearedAt, since: evidence['since'] },
      }));
  const expected = {
    ...{ kind: 'probe-fault', action: 'service', subject: 'p02', raisedAt: dayAt(8), clearedAt: null },
    since: '2026-05-12T08:00:00Z',
  };
  const first = bodyOf({ probe: 'p02', from: dayAt(1), doneAt: dayAt(1), points: shiftedBy(-0.1) });
  const next = { ...first, from: dayAt(9), doneAt: dayAt(9) };

  test('falls due at its event time and is over with the hour that it holds from', () => {
    const station = openDesk(undefined, often);
    station.commit(season.messages.slice(0, 800));
    station.desk.add(first);
    station.settle();
    expect(dueOf(station)).toEqual([expected]);
    station.desk.add(next);
    station.commit(season.messages.slice(800, 1000));
    station.settle();
    expect(dueOf(station)).toEqual([{ ...expected, clearedAt: dayAt(9) + HOUR_ms }]);
  });

  test('made before it fell due leaves nothing of it', () => {
    const station = openDesk(undefined, often);
    station.commit(season.messages);
    station.desk.add(first);
    station.settle();
    const { id } = station.desk.add({ ...next, from: dayAt(7), doneAt: dayAt(7) });
    station.settle();
    expect(dueOf(station)).toEqual([{ ...expected, raisedAt: dayAt(14), since: '2026-05-18T08:00:00Z' }]);
    expect(station.desk.due()[0]).toMatchObject({
      probe: 'p02',
      calibration: id,
      dueAt: dayAt(14),
      isDue: true,
    });
  });

  test('says in the text of the alarm what to do', () => {
    const station = openDesk(undefined, often);
    station.desk.add(first);
    station.commit(season.messages);
    station.settle();
    const due = station.views.alarms({ limit: 100 }).alarms.find(({ subject }) => subject === 'p02');
    expect(due?.text).toMatch(/p02 is due for calibration/);
  });
});
