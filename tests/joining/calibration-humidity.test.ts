/** A humidity calibrated at two temperatures: the probe's own temperature coefficient, in series and watch alike. */
import { describe, expect, test } from 'vitest';
import type { CalibrationPoint } from '../../services/core/model/calibration.js';
import { correctHour, correctSamples } from '../../services/core/watch/corrections.js';
import type { BedHour, Watch } from '../../services/core/watch/watch.js';
import { beside, bodyOf, openDesk, reading, START, seriesOf } from '../support/calibrating.js';
import { type Message, makeSeason, SHORT_SEASON } from '../support/season.js';
import { openStation } from '../support/station.js';

const jar = (indicated: number, temperature_C: number): CalibrationPoint =>
  beside(indicated, 75, { referenceUncertainty: 0.5, temperature_C, source: 'salt' });

/** Over 75 %RH it shows 1 too little at 10 °C and 1 too much at 30 °C: 0.1 %RH for each °C, nothing at 20 °C. */
const JARS = [jar(74, 10), jar(76, 30)];

const humidityOf = (points: readonly CalibrationPoint[], change = {}) =>
  bodyOf({ quantity: 'humidity', from: START, points: [...points], ...change });

/** p01 at 75 %RH in sand of 10, 20, 30 °C, and once without a temperature. */
const SHOWN: Message[] = [
  reading(0, 'p01', 10, 75),
  reading(1, 'p01', 20, 75),
  reading(2, 'p01', 30, 75),
  reading(3, 'p01', undefined, 75),
  reading(5, 'p01', 20),
];

/** A watch that only looks. */
function looking() {
  const seen: BedHour[] = [];
  const watch: Watch = {
    version: 'looking',
    open: () => ({
      step: (hour) => {
        seen.push(hour);
        return { changes: [], judgements: new Map(), flags: new Map() };
      },
      standing: () => ({ basis: '', learning: false }),
      checkpoint: () => '{}',
    }),
  };
  return { seen, watch };
}

function open() {
  const { seen, watch } = looking();
  const station = openDesk(openStation({ watch }));
  station.commit(SHOWN);
  station.settle();
  return { ...station, seen };
}

describe('a humidity calibrated at two temperatures', () => {
  test('is corrected by what the probe adds at the temperature of the sand, more surely near the middle', () => {
    const station = open();
    station.desk.add(humidityOf(JARS));
    const { humidity_RH, humidityUncertainty_RH } = seriesOf(station, 'p01');
    expect(humidity_RH).toEqual([76, 75, 74, 75, null]);
    // Offset of two points of one salt, widened by their scatter (chi = 2): 0.5 x 2. Coefficient, by hand:
    // 1 / sqrt(2 x 10^2 / (0.5^2 + 0.3^2)) = 0.0412311 %RH/°C.
    const away = 2 * Math.hypot(1, 0.412311);
    const expected = [away, 2, away, 2];
    for (const [at, value] of expected.entries()) expect(humidityUncertainty_RH[at]).toBeCloseTo(value, 5);
  });

  test('goes by the corrected temperature, of the same time', () => {
    const station = open();
    station.desk.add(bodyOf({ from: START, points: [beside(10, 5), beside(30, 25)] }));
    station.desk.add(humidityOf(JARS));
    expect(seriesOf(station, 'p01').humidity_RH).toEqual([76.5, 75.5, 74.5, 75, null]);
  });

  test('is the same to the watch, sample by sample and by the hour', () => {
    const station = open();
    station.desk.add(bodyOf({ from: START, points: [beside(10, 5), beside(30, 25)] }));
    station.desk.add(humidityOf(JARS));
    station.seen.length = 0;
    station.settle();
    const hours = station.seen.slice(0, 4);
    expect(hours).toHaveLength(4);
    const expected = seriesOf(station, 'p01').humidity_RH;
    hours.forEach((hour, at) => {
      const corrections = hour.corrections?.get('p01');
      const [sample] = correctSamples(hour.probes.get('p01') ?? [], corrections);
      expect(sample?.humidity).toBeCloseTo(expected[at] ?? 0, 9);
      const raw = hour.probes.get('p01')?.[0];
      const summary = (value = 0) => ({ count: 1, mean: value, min: value, max: value });
      const { humidity } = correctHour(
        {
          ...(raw?.temperature !== undefined && { temperature: summary(raw.temperature) }),
          humidity: summary(raw?.humidity),
          wetOrBroken: false,
        },
        corrections,
      );
      expect(humidity?.mean).toBeCloseTo(expected[at] ?? 0, 9);
    });
  });

  test('beyond 0 to 50 °C stays what it is there', () => {
    const station = open();
    station.commit([reading(6, 'p01', -8, 75), reading(7, 'p01', 70, 75)]);
    station.desk.add(humidityOf(JARS));
    expect(seriesOf(station, 'p01').humidity_RH.slice(-2)).toEqual([77, 72]);
  });

  test('does not take its coefficient from a point that was left out', () => {
    const station = open();
    const leaveOut = [{ index: 1, reason: 'the jar stood open' }];
    station.desk.add(humidityOf([jar(75, 20), jar(78, 30)], { fit: { leaveOut } }));
    expect(seriesOf(station, 'p01').humidity_RH).toEqual([75, 75, 75, 75, null]);
    station.seen.length = 0;
    station.settle();
    const [hour] = station.seen;
    const [sample] = correctSamples(hour?.probes.get('p01') ?? [], hour?.corrections?.get('p01'));
    expect(sample?.humidity).toBeCloseTo(75, 9);
  });
});

describe('without a temperature of the jars', () => {
  test('nothing is added but uncertainty: 0.05 %RH for each °C from 15 to 30 °C', () => {
    const station = open();
    const points = [40, 80].map((value) => beside(value, value + 5, { referenceUncertainty: 0.5 }));
    station.desk.add(humidityOf(points));
    const { humidity_RH, humidityUncertainty_RH } = seriesOf(station, 'p01');
    expect(humidity_RH).toEqual([80, 80, 80, 80, null]);
    // 0.5^2 / 2 of the fit and 0.5^2 that the two share; 20 °C lies 10 °C from 30, 10 °C lies 20 from it.
    const expected = [20, 10, 15].map((far_C) => 2 * Math.hypot(Math.sqrt(0.375), 0.05 * far_C));
    for (const [at, value] of expected.entries()) expect(humidityUncertainty_RH[at]).toBeCloseTo(value, 5);
    expect(humidityUncertainty_RH[3]).toBeCloseTo(2 * Math.sqrt(0.375), 5);
  });
});

test('a bed whose probes follow their own temperature is told to be damp as one whose probes do not', () => {
  const season = makeSeason({ ...SHORT_SEASON, days: 18, wetFromDay: 12, rotFromDay: 900 });
  const raised = (messages: readonly Message[], points?: readonly CalibrationPoint[]): unknown[] => {
    const station = openDesk(undefined, season.site);
    for (const probe of points ? ['p01', 'p02', 'p03'] : [])
      station.desk.add(humidityOf(points ?? [], { probe }));
    station.commit(messages);
    station.settle();
    return station.views
      .alarms({ limit: 100 })
      .alarms.map(({ kind, action, raisedAt, clearedAt }) => ({ kind, action, raisedAt, clearedAt }));
  };
  // Less than right where it is warm: quality judges what was sent, and 100 %RH would be another matter to it.
  const own = -0.5;
  const follows = season.messages.map(({ topic, payload }) => {
    const [warmth, damp] = JSON.parse(payload) as { v: number }[];
    if (!warmth || !damp || topic.includes('p09')) return { topic, payload };
    const v = damp.v + own * (warmth.v - 20);
    return { topic, payload: JSON.stringify([warmth, { ...damp, v }]) };
  });
  const right = raised(season.messages);
  expect(right).toContainEqual(expect.objectContaining({ kind: 'wetting', action: 'unpack' }));
  expect(raised(follows, [jar(75 - 10 * own, 10), jar(75 + 10 * own, 30)])).toEqual(right);
  expect(raised(follows)).not.toEqual(right);
});
