import { describe, expect, test } from 'vitest';
import { thresholdsInForce } from '../../../services/core/model/threshold.js';
import { DAY_ms, HOUR_ms } from '../../../services/core/model/time.js';
import { calibrationsDue, dueAfter } from '../../../services/core/watch/calibration-due.js';
import type { HourCorrection, ProbeCorrections } from '../../../services/core/watch/corrections.js';
import type { PlacedProbe } from '../../../services/core/watch/placements.js';
import { offsetFit } from '../../support/offset-fit.js';

const MADE = Date.UTC(2026, 4, 4, 8);

const THRESHOLDS = Object.freeze(
  thresholdsInForce({ calibrate_temperature_days: 30, calibrate_humidity_days: 10 }),
);

const placed = (...ids: string[]): PlacedProbe[] =>
  ids.map((id) => ({ id, placement: { bed: 'pit-t', x: 10, y: 10, depth: 10, from: 0 } as never }));

const madeAt = (at: number | null): HourCorrection => ({
  fit: at === null ? null : offsetFit('temperature', -1),
  madeAt: at,
});

const dueIn = (
  hour: number,
  corrections: Readonly<Record<string, ProbeCorrections>>,
  ids = ['p01', 'p02'],
) => [
  ...calibrationsDue(
    {
      hour,
      probes: new Map(),
      shade: new Map(),
      inspections: [],
      corrections: new Map(Object.entries(corrections)),
    },
    placed(...ids),
    THRESHOLDS,
  ),
];

const dueAt = dueAfter(MADE, 30);

test('the next calibration falls due so many days after it was made', () => {
  expect(dueAt).toBe(MADE + 30 * DAY_ms);
});

describe('a probe whose calibration is older than it may be', () => {
  test('is due from the hour at whose end it is, and says since when', () => {
    const corrections = { p01: { temperature: madeAt(MADE) } };
    expect(dueIn(dueAt - HOUR_ms - 1, corrections)).toEqual([]);
    expect(dueIn(dueAt - HOUR_ms, corrections)).toEqual([['p01', dueAt]]);
    expect(dueIn(dueAt + 99 * DAY_ms, corrections)).toEqual([['p01', dueAt]]);
  });

  test('goes by whichever quantity is due first', () => {
    const corrections = { p01: { temperature: madeAt(MADE), humidity: madeAt(MADE + 5 * DAY_ms) } };
    expect(dueIn(MADE + 15 * DAY_ms - HOUR_ms, corrections)).toEqual([['p01', MADE + 15 * DAY_ms]]);
    const renewed = { p01: { temperature: madeAt(MADE), humidity: madeAt(MADE + 25 * DAY_ms) } };
    expect(dueIn(dueAt - HOUR_ms, renewed)).toEqual([['p01', dueAt]]);
  });

  test('is told beside others, each by itself', () => {
    const corrections = {
      p01: { temperature: madeAt(MADE) },
      p02: { humidity: madeAt(MADE) },
    };
    expect(dueIn(dueAt, corrections)).toEqual([
      ['p01', dueAt],
      ['p02', MADE + 10 * DAY_ms],
    ]);
  });
});

describe('nothing is due', () => {
  const late = dueAt + 1000 * DAY_ms;

  test('of a probe that never was calibrated, or whose calibration was taken back', () => {
    expect(dueIn(late, {})).toEqual([]);
    expect(dueIn(late, { p01: {} })).toEqual([]);
    expect(dueIn(late, { p01: { temperature: madeAt(null) } })).toEqual([]);
  });

  test('of a probe that does not stand in the bed, such as one of the shade', () => {
    expect(dueIn(late, { p09: { temperature: madeAt(MADE) } })).toEqual([]);
  });

  test('where nothing is known of calibrations', () => {
    const hour = { hour: late, probes: new Map(), shade: new Map(), inspections: [] };
    expect([...calibrationsDue(hour, placed('p01'), THRESHOLDS)]).toEqual([]);
  });

  test('at a time that is none', () => {
    expect(dueIn(Number.NaN, { p01: { temperature: madeAt(MADE) } })).toEqual([]);
  });
});
