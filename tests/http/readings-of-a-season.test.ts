/** Series over a real station: what a plot of a long time still shows. */
import { describe, expect, test } from 'vitest';
import { formatTime, HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import type { Watch } from '../../services/core/watch/watch.js';
import { pointingWatch } from '../support/pointing-watch.js';
import { type Message, SHORT_SEASON, siteOf } from '../support/season.js';
import { NOW, openStation } from '../support/station.js';
import { problemOfAnswer } from './answers.js';
import { appOnStation } from './app-on-station.js';

const START = SHORT_SEASON.startAt;
const DAYS = 14;
const READINGS = DAYS * 144;
const SPAN = `from=${formatTime(START)}&to=${formatTime(START + READINGS * 10 * MINUTE_ms)}`;
const URL = '/api/beds/pit-t/readings';

type Value = (reading: number) => number;

/** A reading every ten minutes. */
function season(probe: string, temperature: Value, humidity: Value): Message {
  const records = Array.from({ length: READINGS }, (_, at) => [
    { n: 'temperature', u: 'Cel', v: temperature(at), t: (START + at * 10 * MINUTE_ms) / 1000 },
    { n: 'humidity', u: '%RH', v: humidity(at), t: (START + at * 10 * MINUTE_ms) / 1000 },
  ]);
  return {
    topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
    payload: JSON.stringify(records.flat()),
  };
}

/** One reading is the moistest, and it is neither the coldest nor the warmest of its day. */
const MOISTEST = 777;
/** One hour is the warmest against what is expected. */
const WARM_HOUR = 100;
const BROKEN = 500;

const P01 = season(
  'p01',
  (at) => (at === BROKEN ? 85 : Math.floor(at / 6) === WARM_HOUR ? 24 : 20 + (at % 7) / 10),
  (at) => (at === MOISTEST ? 93 : 80 + (at % 5) / 10),
);

/** Flags what is 85 °C, and expects 20 °C with a band of 0.5. */
const watch: Watch = {
  ...pointingWatch,
  open: (bed, checkpoint) => {
    const watched = pointingWatch.open(bed, checkpoint);
    return {
      ...watched,
      step: (hour) => ({
        changes: [],
        judgements: new Map(
          [...hour.probes].map(([id, samples]) => {
            const mean = samples.reduce((sum, { temperature = 0 }) => sum + temperature, 0) / samples.length;
            return [id, { expected_C: 20, band_C: 0.5, excess_C: mean - 20 }];
          }),
        ),
        flags: new Map(
          [...hour.probes, ...hour.shade].map(([id, samples]) => [
            id,
            samples
              .filter(({ temperature }) => temperature === 85)
              .map(({ at }) => ({ at, quantity: 'temperature' as const, reason: 'sensor-code' as const })),
          ]),
        ),
      }),
    };
  },
};

async function opened(...messages: Message[]) {
  const station = openStation({ watch });
  station.load(siteOf(SHORT_SEASON));
  station.commit(messages);
  station.settle();
  return appOnStation(station, { now: () => NOW, startedAt: START });
}

const SHADE = season(
  'p09',
  (at) => (at === 3 ? 85 : 22 + 6 * Math.sin((at * Math.PI) / 72)),
  () => 50,
);

describe('a season in a few points', () => {
  test('keeps the moistest reading, the greatest excess, and its bound', async () => {
    const app = await opened(P01);
    const { probes } = (await app.get(`${URL}?${SPAN}&points=100`)).json();
    const [series] = probes;
    expect(series.thinned).toBe(true);
    expect(series.time.length).toBeLessThanOrEqual(100);
    expect(series.time.length).toBeGreaterThan(60);
    expect(series.time).toEqual([...series.time].sort());
    expect(Math.max(...series.humidity_RH)).toBe(93);
    expect(series.time[series.humidity_RH.indexOf(93)]).toBe(formatTime(START + MOISTEST * 10 * MINUTE_ms));
    expect(series.hours.time.length).toBeLessThanOrEqual(100);
    const warmest = series.hours.time.indexOf(formatTime(START + WARM_HOUR * HOUR_ms));
    expect(series.hours.excess_C[warmest]).toBe(4);
    expect(series.hours.band_C[warmest]).toBe(0.5);
  });

  test('takes no broken value for a maximum, and gives it with its reason beside', async () => {
    const app = await opened(P01);
    const { probes } = (await app.get(`${URL}?${SPAN}&points=100`)).json();
    expect(Math.max(...probes[0].temperature_C)).toBe(24);
    expect(probes[0].flagged).toEqual([
      {
        ...{ at: formatTime(START + BROKEN * 10 * MINUTE_ms), quantity: 'temperature' },
        ...{ reason: 'sensor-code', value: 85 },
      },
    ]);
  });

  test('given whole keeps every reading, the broken one too', async () => {
    const app = await opened(P01);
    const { probes } = (await app.get(`${URL}?${SPAN}&points=5000`)).json();
    expect(probes[0].thinned).toBe(false);
    expect(probes[0].time).toHaveLength(READINGS);
    expect(probes[0].temperature_C[BROKEN]).toBe(85);
    expect(probes[0].hours.time).toHaveLength(DAYS * 24 - 1);
  });
});

describe('probes and shade', () => {
  test('are given as they are asked for', async () => {
    const app = await opened(P01, SHADE);
    const idsOf = async (query: string) => {
      const answer = (await app.get(`${URL}?${SPAN}${query}`)).json();
      return [answer.probes, answer.shade].map((all: { probe: string }[]) => all.map(({ probe }) => probe));
    };
    expect(await idsOf('')).toEqual([['p01'], []]);
    expect(await idsOf('&shade=true')).toEqual([['p01'], ['p09']]);
    expect(await idsOf('&probes=p01')).toEqual([['p01'], []]);
    expect(await idsOf('&probes=p02')).toEqual([[], []]);
    expect(await idsOf('&probes=p09')).toEqual([[], ['p09']]);
    expect(await idsOf('&probes=p01,p09')).toEqual([['p01'], ['p09']]);
    expect(await idsOf('&probes=p01&shade=true')).toEqual([['p01'], ['p09']]);
  });

  test('the shade keeps its extremes, and what is flagged of it stands beside', async () => {
    const app = await opened(P01, SHADE);
    const [shade] = (await app.get(`${URL}?${SPAN}&probes=p09&points=100`)).json().shade;
    expect([Math.min(...shade.temperature_C), Math.max(...shade.temperature_C)]).toEqual([16, 28]);
    expect(shade.flagged).toHaveLength(1);
    expect(shade).not.toHaveProperty('expected_C');
  });

  test('that nobody knows there are refused by name', async () => {
    const app = await opened(P01);
    const problem = problemOfAnswer(await app.get(`${URL}?probes=p01,p77`), 404);
    expect(problem.detail).toMatch(/expected probes of bed "pit-t" or of its shade, got "p77"/);
    problemOfAnswer(await app.get(`${URL}?probes=p77&shade=true`), 404);
  });

  test('named alone may be asked for more points than all together', async () => {
    const app = await opened(P01);
    expect((await app.get(`${URL}?probes=p01&points=5000`)).statusCode).toBe(200);
  });
});
