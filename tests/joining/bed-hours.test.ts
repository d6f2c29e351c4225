/** What a watch is given, and what is kept of its answers, when probes are moved. */
import { describe, expect, test } from 'vitest';
import type { BedHour, Watch } from '../../services/core/watch/watch.js';
import { pointingWatch } from '../support/pointing-watch.js';
import { type Message, SHORT_SEASON, siteOf } from '../support/season.js';
import { openStation } from '../support/station.js';

const START = SHORT_SEASON.startAt;
const MINUTE_ms = 60_000;
const HOUR_ms = 60 * MINUTE_ms;

const at = (time: number, probe: string, values: Record<string, number>): Message => ({
  topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
  payload: JSON.stringify(
    Object.entries(values).map(([n, v]) => ({
      bt: time / 1000,
      n,
      u: n === 'temperature' ? 'Cel' : n === 'humidity' ? '%RH' : 'V',
      v,
    })),
  ),
});

interface File {
  beds: { id: string; name: string }[];
  probes: { id: string; placements: object[] }[];
}

/** Two beds; p01 goes from pit T to pit U and p03 from one place of pit T to another, at a time. */
function twoBeds(movedAt: number): File {
  const file = siteOf(SHORT_SEASON) as File;
  const from = new Date(movedAt).toISOString();
  for (const pit of [...file.beds]) file.beds.push({ ...pit, id: 'pit-u', name: 'Pit U' });
  const place = { x: 20, y: 20, depth: 20, from };
  for (const [id, bed] of [
    ['p01', 'pit-u'],
    ['p03', 'pit-t'],
  ])
    file.probes.find((probe) => probe.id === id)?.placements.push({ bed, ...place });
  file.probes.push({ id: 'p08', placements: [{ ambient: true, from: new Date(START).toISOString() }] });
  return file;
}

/** A watch that only writes down what it is given. */
function listening() {
  const hours: (BedHour & { bed: string })[] = [];
  const watch: Watch = {
    version: 'listening',
    open: ({ bed }) => ({
      step: (hour) => {
        hours.push({ ...hour, bed: bed.id });
        return { changes: [], judgements: new Map(), flags: new Map() };
      },
      standing: () => ({ basis: '', learning: false }),
      checkpoint: () => '{}',
    }),
  };
  return { hours, watch };
}

function heard(messages: readonly Message[]) {
  const { hours, watch } = listening();
  const station = openStation({ watch });
  station.load(twoBeds(START + 30 * MINUTE_ms));
  station.commit(messages);
  station.settle();
  return (bed: string, hour: number) =>
    hours.find((each) => each.bed === bed && each.hour === START + hour * HOUR_ms);
}

const everyTen = (probe: string): Message[] =>
  Array.from({ length: 15 }, (_, step) => at(START + step * 10 * MINUTE_ms, probe, { temperature: step }));
const valuesOf = (hour: BedHour | undefined, probe: string) =>
  hour?.probes.get(probe)?.map(({ temperature }) => temperature);

describe('an hour', () => {
  test('in which a probe was moved gives the samples before to the old bed, those after to the new', () => {
    const hourOf = heard([...everyTen('p01'), ...everyTen('p02')]);
    expect(valuesOf(hourOf('pit-t', 0), 'p01')).toEqual([0, 1, 2]);
    expect(valuesOf(hourOf('pit-u', 0), 'p01')).toEqual([3, 4, 5]);
    expect(valuesOf(hourOf('pit-u', 1), 'p01')).toEqual([6, 7, 8, 9, 10, 11]);
  });

  test('in which a probe was moved within the bed has the samples of both places', () => {
    expect(valuesOf(heard(everyTen('p03'))('pit-t', 0), 'p03')).toEqual([0, 1, 2, 3, 4, 5]);
  });

  test('is raw: in order of time, codes of sensors included, what was not measured absent', () => {
    const hourOf = heard([
      at(START + 50 * MINUTE_ms, 'p02', { temperature: 85, battery: 3 }),
      at(START + 10 * MINUTE_ms, 'p02', { temperature: -127, humidity: 130 }),
      at(START + 20 * MINUTE_ms, 'p02', { humidity: 50 }),
      at(START + 30 * MINUTE_ms, 'p02', { battery: 3 }),
      at(START + 70 * MINUTE_ms, 'p02', { temperature: 20 }),
    ]);
    expect(hourOf('pit-t', 0)?.probes.get('p02')).toEqual([
      { at: START + 10 * MINUTE_ms, temperature: -127, humidity: 130 },
      { at: START + 20 * MINUTE_ms, humidity: 50 },
      { at: START + 50 * MINUTE_ms, temperature: 85 },
    ]);
  });

  test('has each shade probe for itself, in every bed of the site', () => {
    const closing = ['p02', 'p01'].map((id) => at(START + 70 * MINUTE_ms, id, { temperature: 20 }));
    const shade = ['p08', 'p09'].map((id, step) => at(START, id, { temperature: step }));
    const hourOf = heard([...shade, ...closing]);
    const asGiven = new Map([
      ['p08', [{ at: START, temperature: 0 }]],
      ['p09', [{ at: START, temperature: 1 }]],
    ]);
    expect(hourOf('pit-t', 0)?.shade).toEqual(asGiven);
    expect(hourOf('pit-u', 0)?.shade).toEqual(asGiven);
    expect(hourOf('pit-t', 0)?.probes.has('p09')).toBe(false);
  });

  test('without anything has two empty lists', () => {
    const hourOf = heard(
      [0, 190].map((minute) => at(START + minute * MINUTE_ms, 'p02', { temperature: 20 })),
    );
    expect(hourOf('pit-t', 1)).toMatchObject({ probes: new Map(), shade: new Map(), inspections: [] });
  });
});

describe('judgements of a probe that was moved', () => {
  test('stay with each bed when the other is judged again, and the hour of the move has none', () => {
    const station = openStation({ watch: pointingWatch });
    station.load(twoBeds(START + 90 * MINUTE_ms));
    const judged = () =>
      station.database
        .prepare(
          "SELECT (hour - ?) / 3600000 FROM judged_hour JOIN probe_key ON key = judged_hour.probe WHERE probe_key.probe = 'p01' ORDER BY 1",
        )
        .pluck()
        .all(BigInt(START));
    station.commit([
      ...everyTen('p01'),
      ...everyTen('p02'),
      at(START + 190 * MINUTE_ms, 'p01', { temperature: 1 }),
    ]);
    station.settle();
    expect(judged()).toEqual([0, 2]);
    station.commit([at(START + 5 * MINUTE_ms, 'p02', { temperature: 50 })]);
    station.settle();
    expect(judged()).toEqual([0, 2]);
  });
});
