import { describe, expect, test } from 'vitest';
import type { QualityFlag } from '../../services/core/watch/flag.js';
import { openStores } from '../support/open.js';

const NOON = Date.UTC(2026, 5, 1, 12);
const HOUR_ms = 3_600_000;
const ALWAYS = { from: 0, to: Number.MAX_SAFE_INTEGER };

const flag = (at: number, reason: QualityFlag['reason'] = 'spike'): QualityFlag => ({
  at,
  quantity: 'temperature',
  reason,
});

/** Probe 1 with a temperature at noon and in each of the four minutes after. */
function open() {
  const stores = openStores();
  for (let minute = 0; minute < 5; minute += 1)
    stores.archive.readings.put(1, NOON + minute * 60_000, { temperature: 20 + minute });
  return stores;
}

describe('flags', () => {
  test('come back in order of time, without touching the reading', () => {
    const { archive } = open();
    archive.flags.put('pit-a', 1, NOON, [flag(NOON + 60_000, 'stuck'), flag(NOON)]);
    expect(archive.flags.read('pit-a', 1, ALWAYS, 10)).toEqual([flag(NOON), flag(NOON + 60_000, 'stuck')]);
    expect(archive.readings.samples(1, NOON, NOON + 1)).toEqual([{ at: NOON, temperature: 20 }]);
  });

  test('are only of values that are stored', () => {
    const { archive } = open();
    archive.flags.put('pit-a', 1, NOON, [flag(NOON + 1), { ...flag(NOON), quantity: 'humidity' }]);
    archive.flags.put('pit-a', 2, NOON, [flag(NOON)]);
    expect(archive.flags.totals()).toEqual(new Map());
  });

  test('of another quantity are refused', () => {
    const { archive } = open();
    archive.flags.put('pit-a', 1, NOON, [{ ...flag(NOON), quantity: 'battery' as 'humidity' }]);
    expect(archive.flags.totals()).toEqual(new Map());
  });

  test('of one value: the first stands', () => {
    const { archive } = open();
    archive.flags.put('pit-a', 1, NOON, [flag(NOON)]);
    archive.flags.put('pit-a', 1, NOON + HOUR_ms, [flag(NOON, 'stuck')]);
    expect(archive.flags.read('pit-a', 1, ALWAYS, 10)).toEqual([flag(NOON)]);
  });

  test('are read of a span and a bed, the newest where there are more than asked for', () => {
    const { archive } = open();
    const all = [0, 1, 2, 3, 4].map((minute) => flag(NOON + minute * 60_000));
    archive.flags.put('pit-a', 1, NOON, all);
    const span = { from: NOON + 60_000, to: NOON + 4 * 60_000 };
    expect(archive.flags.read('pit-a', 1, span, 10)).toEqual(all.slice(1, 4));
    expect(archive.flags.read('pit-a', 1, ALWAYS, 2)).toEqual(all.slice(3));
    expect(archive.flags.read('pit-b', 1, ALWAYS, 10)).toEqual([]);
  });

  test('are forgotten by the hour in which they were found, and only those of the bed', () => {
    const { archive } = open();
    archive.flags.put('pit-a', 1, NOON, [flag(NOON)]);
    archive.flags.put('pit-a', 1, NOON + HOUR_ms, [flag(NOON + 60_000)]);
    archive.flags.put('pit-b', 1, NOON + HOUR_ms, [flag(NOON + 60_000)]);
    archive.flags.forget('pit-a', NOON + HOUR_ms);
    expect(archive.flags.read('pit-a', 1, ALWAYS, 10)).toEqual([flag(NOON)]);
    expect(archive.flags.read('pit-b', 1, ALWAYS, 10)).toEqual([flag(NOON + 60_000)]);
  });

  test('are counted by reason, once for a value that several beds see', () => {
    const { archive } = open();
    for (const bed of ['pit-a', 'pit-b']) archive.flags.put(bed, 1, NOON, [flag(NOON), flag(NOON + 60_000)]);
    archive.flags.put('pit-a', 1, NOON, [flag(NOON + 120_000, 'stuck')]);
    expect(archive.flags.totals()).toEqual(
      new Map([
        ['spike', 2],
        ['stuck', 1],
      ]),
    );
  });
});
