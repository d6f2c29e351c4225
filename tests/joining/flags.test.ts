/** Readings that the watch does not use: shown beside the series, counted, never taken away. */
import { describe, expect, test } from 'vitest';
import { pointingWatch } from '../support/pointing-watch.js';
import { portsOnStation } from '../support/ports-on-station.js';
import { type Message, SHORT_SEASON, siteOf } from '../support/season.js';
import { NOW, openStation } from '../support/station.js';

const START = SHORT_SEASON.startAt;
const HOUR_ms = 3_600_000;
const ALL = { from: START, to: START + 100 * HOUR_ms, points: 100 };

const at = (hour: number, probe: string, temperature: number): Message => ({
  topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
  payload: JSON.stringify([
    { n: 'temperature', u: 'Cel', v: temperature, bt: (START + hour * HOUR_ms) / 1000 },
  ]),
});

function open(...messages: Message[]) {
  const station = openStation({ watch: pointingWatch });
  station.load(siteOf(SHORT_SEASON));
  station.commit(messages);
  station.settle();
  return station;
}

/** 85 °C at hour 1: the reading before it and itself are each followed by a jump. */
const CODE = [at(0, 'p02', 20), at(1, 'p02', 85), at(2, 'p02', 21), at(4, 'p02', 21)];

const flagged = (station: ReturnType<typeof open>, points = 100) =>
  station.views
    .series('pit-t', { ...ALL, points })
    .map((series) => [series.probe, series.flagged.map((flag) => (flag.at - START) / HOUR_ms)]);

describe('flagged readings', () => {
  test('are shown beside the series, which keeps them', () => {
    const station = open(...CODE, at(0, 'p03', 20), at(1, 'p03', 20));
    expect(flagged(station)).toEqual([
      ['p02', [0, 1]],
      ['p03', []],
    ]);
    const [series] = station.views.series('pit-t', ALL);
    expect(series?.temperature_C).toEqual([20, 85, 21, 21]);
    expect(series?.flagged[0]).toEqual({
      ...{ at: START, quantity: 'temperature', reason: 'spike', value: 20 },
    });
  });

  test('are no more than the points asked for', () => {
    const jumping = Array.from({ length: 40 }, (_, hour) => at(hour, 'p02', hour % 2 ? 20 : 40));
    const [[, hours] = []] = flagged(open(...jumping), 10);
    expect(hours).toEqual([27, 28, 29, 30, 31, 32, 33, 34, 35, 36]);
  });

  test('are judged again when readings come late', () => {
    const station = open(...CODE);
    station.commit([at(0.5, 'p02', 80)]);
    station.settle();
    expect(flagged(station)).toEqual([['p02', [0, 1]]]);
    station.commit([at(0.9, 'p02', 30), at(0.95, 'p02', 22)]);
    station.settle();
    expect(flagged(station)).toEqual([['p02', [0, 0.5, 0.95, 1]]]);
  });

  test('of the shade are counted and shown in no series', () => {
    const station = open(...CODE, at(0, 'p09', 10), at(1, 'p09', 30));
    expect(flagged(station)).toEqual([['p02', [0, 1]]]);
    expect(station.archive.flags.totals()).toEqual(new Map([['spike', 3]]));
  });
});

const portsOver = (station: ReturnType<typeof open>, arrived_ms: number | null = 0) =>
  portsOnStation(station, {
    ...{ now: () => NOW, startedAt: NOW - 5 * HOUR_ms },
    newestArrivalAt: arrived_ms === null ? null : NOW - arrived_ms,
  });

test('metrics count them by reason, every reason of the list', async () => {
  const { text } = await portsOver(open(...CODE)).metrics();
  expect(text).toContain('sandlarder_flagged_readings{reason="spike"} 2\n');
  expect(text).toContain('sandlarder_flagged_readings{reason="clock"} 0\n');
});

test('health says of each bed how many hours wait to be judged', () => {
  const station = open(...CODE, at(9, 'p02', 21));
  expect(portsOver(station).health().watchLag).toEqual({
    ...{ beds: 0, hours: 0 },
    byBed: [{ bed: 'pit-t', hours: 0 }],
  });
  station.commit([at(3, 'p02', 21)]);
  expect(portsOver(station).health().watchLag).toEqual({
    ...{ beds: 1, hours: 5 },
    byBed: [{ bed: 'pit-t', hours: 5 }],
  });
});

test.each([
  ['a message came two hours ago', 2 * HOUR_ms, []],
  ['the last message came four hours ago', 4 * HOUR_ms, ['no message from any probe for 4 hours']],
  ['none has come since the start, five hours ago', null, ['no message from any probe for 5 hours']],
] as const)('health where %s', (_, arrived_ms, problems) => {
  const health = portsOver(open(...CODE), arrived_ms).health();
  expect(health.problems.map((problem) => problem.split(':')[0])).toEqual(problems);
  expect(health.status).toBe(problems.length === 0 ? 'ok' : 'degraded');
});
