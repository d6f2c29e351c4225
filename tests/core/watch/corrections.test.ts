import { describe, expect, test } from 'vitest';
import type { CalibrationFit } from '../../../services/core/model/calibration.js';
import { DAY_ms, HOUR_ms } from '../../../services/core/model/time.js';
import type { HourCorrection, ProbeCorrections } from '../../../services/core/watch/corrections.js';
import { correctHour, correctSamples, shiftOf } from '../../../services/core/watch/corrections.js';
import { sandWatch } from '../../../services/core/watch/sand-watch.js';
import type { BedHour, Sample } from '../../../services/core/watch/watch.js';
import { offsetFit } from '../../support/offset-fit.js';
import { SHORT_SEASON } from '../../support/season.js';
import { type BedSeason, bedSeason, runSeason } from './sand-season.js';

const SOUND = { ...SHORT_SEASON, rotFromDay: 900, wetFromDay: 900 };
const DAMP = { ...SHORT_SEASON, rotFromDay: 900 };

/** The season of a bed whose probe p02 shows otherwise, from a day on. */
const shifted = (change: Partial<Sample>, options = SOUND, from_day = 0): BedSeason =>
  bedSeason(options, (probe, sample) => {
    if (probe !== 'p02' || sample.at < options.startAt + from_day * DAY_ms) return sample;
    const { at, temperature = 0, humidity = 0 } = sample;
    return {
      at,
      temperature: temperature + (change.temperature ?? 0),
      humidity: humidity + (change.humidity ?? 0),
    };
  });

/** A calibration of p02 that comes into force on a day; with day 0 it always was. */
function calibrated({ watched, hours, startAt }: BedSeason, fit: CalibrationFit, from_day = 0): BedSeason {
  const { quantity } = fit;
  const after = hours.map((hour): BedHour => {
    const day = (hour.hour - startAt) / DAY_ms;
    if (day < from_day) return hour;
    const first = from_day > 0 && day < from_day + 1 / 24;
    const one: HourCorrection = { fit, madeAt: startAt, ...(first && { before: null }) };
    return { ...hour, corrections: new Map([['p02', { [quantity]: one } as ProbeCorrections]]) };
  });
  return { watched, hours: after, startAt };
}

/** By hour: what the watch says of p02. */
const judgedOf = (season: BedSeason) => {
  const watch = sandWatch.open(season.watched);
  return season.hours.map((hour) => watch.step(hour).judgements.get('p02'));
};

const short = ({ hours, ...rest }: BedSeason, days = 16): BedSeason => ({
  ...rest,
  hours: hours.slice(0, days * 24),
});

describe('a probe that is off and calibrated', () => {
  test('is judged as one that is right', () => {
    const right = judgedOf(short(bedSeason(SOUND)));
    const off = judgedOf(short(calibrated(shifted({ temperature: 1.5 }), offsetFit('temperature', -1.5))));
    right.forEach((one, hour) => {
      expect(off[hour]?.expected_C ?? 0).toBeCloseTo(one?.expected_C ?? 0, 3);
      expect(off[hour]?.excess_C ?? 0).toBeCloseTo(one?.excess_C ?? 0, 3);
    });
  });

  test('that is calibrated in mid-season changes what is expected with it, and no excess', () => {
    const season = short(shifted({ temperature: 1.5 }));
    const without = judgedOf(season);
    const along = judgedOf(calibrated(season, offsetFit('temperature', -1.5), 12));
    const at = 12 * 24;
    expect(along[at - 1]).toEqual(without[at - 1]);
    for (const hour of [at, at + 7, at + 50]) {
      expect(along[hour]?.expected_C).toBeCloseTo((without[hour]?.expected_C ?? 0) - 1.5, 6);
      expect(along[hour]?.excess_C).toBeCloseTo(without[hour]?.excess_C ?? 0, 6);
    }
  });

  test('raises nothing by being calibrated', () => {
    const told = (season: BedSeason) =>
      runSeason(season).map(({ kind, action, day }) => ({ kind, action, day }));
    const season = short(shifted({ temperature: 1.5, humidity: 5 }), 26);
    expect(told(calibrated(season, offsetFit('temperature', -1.5), 12))).toEqual(told(season));
    expect(told(calibrated(season, offsetFit('humidity', 7), 20))).toEqual(told(season));
  });

  test('that shows too little is told as damp as early as one that is right', () => {
    const firstDamp = (season: BedSeason) =>
      runSeason(season).find(({ kind, type }) => kind === 'wetting' && type === 'raise')?.day;
    const right = firstDamp(bedSeason(DAMP));
    expect(right).toBeGreaterThan(10);
    const dull = shifted({ humidity: -20 }, DAMP);
    expect(firstDamp(calibrated(dull, offsetFit('humidity', 20)))).toBe(right);
  });
});

describe('a state that is kept', () => {
  test('goes on over a calibration as if nothing had been', () => {
    const season = calibrated(short(shifted({ temperature: 1 }), 14), offsetFit('temperature', -1), 8);
    const answersFrom = (at: number) => {
      const before = sandWatch.open(season.watched);
      for (const hour of season.hours.slice(0, at)) before.step(hour);
      const after = sandWatch.open(season.watched, before.checkpoint());
      return season.hours.slice(at).map((hour) => JSON.stringify([...after.step(hour).judgements]));
    };
    const through = sandWatch.open(season.watched);
    const answers = season.hours.map((hour) => JSON.stringify([...through.step(hour).judgements]));
    for (const at of [8 * 24, 8 * 24 + 1, 11 * 24]) expect(answersFrom(at)).toEqual(answers.slice(at));
  });
});

const SUMMARY = { count: 6, mean: 20, min: 19, max: 22 } as const;
const HOUR = Object.freeze({ temperature: SUMMARY, wetOrBroken: false });

test('quality comes first: a code is a code before it is corrected', () => {
  const season = calibrated(
    short(
      bedSeason(SOUND, (probe, sample) => (probe === 'p02' ? { ...sample, temperature: 85 } : sample)),
      3,
    ),
    offsetFit('temperature', -60),
  );
  expect(judgedOf(season).every((one) => one?.excess_C === undefined)).toBe(true);
});

describe('a correction', () => {
  const half: CalibrationFit = {
    ...offsetFit('temperature', 0),
    form: 'linear',
    coefficients: [0, -2],
    covariance: [
      [0, 0],
      [0, 0],
    ],
  };

  test('that turns values round keeps the least below the most', () => {
    const { temperature } = correctHour(HOUR, { temperature: { fit: half, madeAt: 0 } });
    expect(temperature).toEqual({ count: 6, mean: 20, min: 18, max: 21 });
  });

  test('is left alone where there is none', () => {
    expect(correctHour(HOUR, undefined)).toBe(HOUR);
    const samples = [{ at: HOUR_ms, temperature: 20 }];
    expect(correctSamples(samples, { temperature: { fit: null, madeAt: null } })).toBe(samples);
  });

  test('of a humidity that has a coefficient of its own moves it by what that adds at the sand', () => {
    const hour = Object.freeze({
      ...{ temperature: { ...SUMMARY, mean: 10 }, wetOrBroken: false },
      humidity: { count: 6, mean: 80, min: 79, max: 81 },
    });
    const inUse = { at0_RH: 2.5, perDegree_RH: -0.1 };
    const one = { fit: offsetFit('humidity', 0), madeAt: 0, inUse };
    expect(shiftOf(hour, { humidity: { ...one, before: null } }).humidity).toBeCloseTo(1.5, 9);
    expect(shiftOf(hour, { humidity: { ...one, before: one } }).humidity).toBeCloseTo(0, 9);
  });

  test('that begins or ends moves values by what it adds at the hour, or at the middle of its range', () => {
    const fit = offsetFit('temperature', -1.5);
    const begins = { temperature: { fit, madeAt: 0, before: null } };
    const ends = { temperature: { fit: null, madeAt: null, before: { fit } } };
    expect(shiftOf(HOUR, begins)).toEqual({ temperature: -1.5 });
    expect(shiftOf(HOUR, ends)).toEqual({ temperature: 1.5 });
    expect(shiftOf({ wetOrBroken: false }, begins)).toEqual({ temperature: -1.5 });
    expect(shiftOf(HOUR, { temperature: { fit, madeAt: 0 } })).toEqual({});
  });
});
