import { describe, expect, onTestFinished, test } from 'vitest';
import { openDatabase } from '../../services/archive/index.js';
import type { Bench } from '../../services/core/model/bench.js';
import { BENCH_TABLE, BenchStore } from '../../services/registry/bench-store.js';
import { codeOf } from '../core/physics/refused.js';
import { temporaryDirectory } from '../support/open.js';

function opened(directory = temporaryDirectory()) {
  const database = openDatabase(directory, [{ name: 'bench-work', steps: [BENCH_TABLE] }]);
  onTestFinished(() => {
    database.close();
  });
  return { database, directory, store: new BenchStore(database) };
}

const benchOf = (id: string, part: Partial<Bench> = {}): Bench =>
  Object.freeze({
    ...{ id, site: 'ridge', quantity: 'humidity', probes: ['p01'], by: 'bench-hand', startedAt: 1000 },
    ...{ reference: { name: 'chilled mirror' }, conditions: { temperature_C: 21.5 }, points: [] },
    ...{ state: 'open', endedAt: null, reason: null, calibrations: [], ...part },
  });

const POINT: Bench['points'][number] = {
  ...{ number: 1, startedAt: 1001, source: 'salt', reference: 75.3, referenceUncertainty: 0.2 },
  ...{ temperature_C: 24.8, label: 'saturated NaCl at 24.8 °C', basis: 'made up' },
  captured: [
    { probe: 'p01', at: 9, from: 2, to: 8, indicated: 76.1, scatter: 0.1, count: 6, uncertainty: 0.1 },
  ],
};
const given = (id: string, part: Partial<Bench> = {}) =>
  benchOf(id, { state: 'given-up', endedAt: 1002, reason: 'rain', ...part });
const idsOf = (benches: readonly Bench[]) => benches.map(({ id }) => id);

test('bench work comes back as it was put, also from a file that was closed', () => {
  const { directory, database, store } = opened();
  const bench = benchOf('b1', { points: [POINT] });
  store.add(bench, 5);
  expect(store.get('b1')).toEqual(bench);
  database.close();
  expect(opened(directory).store.get('b1')).toEqual(bench);
});

test('nothing is found where nothing is', () => {
  const { store } = opened();
  expect(store.get('b1')).toBeUndefined();
  expect(store.list({ limit: 10 })).toEqual([]);
});

describe('revisions', () => {
  test('the newest stands, and those before it are kept', () => {
    const { database, store } = opened();
    store.add(benchOf('b1'), 5);
    store.put(benchOf('b1', { points: [POINT] }), 6);
    store.put(given('b1'), 7);
    expect(store.get('b1')).toEqual(given('b1'));
    const rows = database
      .prepare('SELECT revision, state, written_at AS at FROM bench ORDER BY revision')
      .all();
    expect(rows).toEqual([
      { revision: 1, state: 'open', at: 5 },
      { revision: 2, state: 'open', at: 6 },
      { revision: 3, state: 'given-up', at: 7 },
    ]);
    const second = database.prepare('SELECT document FROM bench WHERE revision = 2').pluck().get();
    expect(JSON.parse(second as string)).toEqual(benchOf('b1', { points: [POINT] }));
  });

  test('the tenth is newer than the ninth', () => {
    const { store } = opened();
    store.add(benchOf('b1'), 5);
    for (let step = 2; step <= 11; step += 1) store.put(benchOf('b1', { by: `hand-${step}` }), 5);
    expect(store.get('b1')?.by).toBe('hand-11');
    expect(store.list({ limit: 10 }).map(({ by }) => by)).toEqual(['hand-11']);
  });

  test('each id counts its own', () => {
    const { store } = opened();
    store.add(benchOf('b1'), 5);
    store.put(benchOf('b1', { by: 'other' }), 6);
    store.add(benchOf('b2'), 7);
    expect(store.get('b1')?.by).toBe('other');
    expect(store.get('b2')?.by).toBe('bench-hand');
  });

  test('an id that is taken, and one that was never added', () => {
    const { store } = opened();
    store.add(benchOf('b1'), 5);
    expect(codeOf(() => store.add(given('b1'), 6))).toBe('CONFLICT');
    expect(store.get('b1')).toEqual(benchOf('b1'));
    expect(codeOf(() => store.put(benchOf('b2'), 6))).toBe('NOT_FOUND');
    expect(store.get('b2')).toBeUndefined();
  });
});

describe('a list', () => {
  function filled() {
    const { store } = opened();
    store.add(benchOf('b1', { startedAt: 3000 }), 5);
    store.add(benchOf('b2', { startedAt: 1000 }), 5);
    store.add(benchOf('b3', { startedAt: 2000, site: 'valley' }), 5);
    store.add(benchOf('b4', { startedAt: 1000 }), 5);
    store.put(given('b1', { startedAt: 3000 }), 6);
    return store;
  }

  test('is the newest first, each once, as it stands', () => {
    const all = filled().list({ limit: 10 });
    expect(idsOf(all)).toEqual(['b1', 'b3', 'b4', 'b2']);
    expect(all[0]?.state).toBe('given-up');
  });

  test('of a site, of a state that it is in now, and of both', () => {
    const store = filled();
    expect(idsOf(store.list({ site: 'ridge', limit: 10 }))).toEqual(['b1', 'b4', 'b2']);
    expect(idsOf(store.list({ state: 'open', limit: 10 }))).toEqual(['b3', 'b4', 'b2']);
    expect(idsOf(store.list({ state: 'given-up', limit: 10 }))).toEqual(['b1']);
    expect(idsOf(store.list({ site: 'valley', state: 'given-up', limit: 10 }))).toEqual([]);
  });

  test('is cut at its limit', () => {
    expect(idsOf(filled().list({ limit: 2 }))).toEqual(['b1', 'b3']);
  });

  test.each([0, -1, 1001, Number.NaN])('a limit of %d is refused', (limit) => {
    expect(codeOf(() => filled().list({ limit }))).toBe('OUT_OF_DOMAIN');
  });
});
