import { describe, expect, test } from 'vitest';
import { DAY_ms } from '../../services/core/model/time.js';
import { openStores, temporaryDirectory } from '../support/open.js';

const AT = Date.UTC(2026, 4, 4, 8);
const id = (last: number): string => `00000000-0000-4000-8000-${String(last).padStart(12, '0')}`;

const filling = (last: number, at: number) => ({
  ...{ id: id(last), bed: 'pit-a', at, by: 'Keeper' },
  ...{ courses: [{ roots: 40 }], probes: [] },
});
const entry = (last: number, at: number) => ({
  ...{ id: id(last), bed: 'pit-a', at, by: 'Keeper', roots: 4 },
  ...({ kind: 'in', reason: 'filled' } as const),
});

describe('fillings at rest', () => {
  test('are given by bed in order of time, whatever order they came in, and outlive a restart', () => {
    const directory = temporaryDirectory();
    const { registry, database } = openStores(directory);
    registry.fillings.add('ridge', filling(1, AT + DAY_ms), 5);
    registry.fillings.add('ridge', filling(2, AT), 6);
    registry.fillings.add('ridge', { ...filling(3, AT), bed: 'pit-b' }, 7);
    database.close();
    const { fillings } = openStores(directory).registry;
    expect(fillings.ofBed('pit-a').map((one) => one.id)).toEqual([id(2), id(1)]);
    expect(fillings.get(id(1))).toEqual(filling(1, AT + DAY_ms));
    expect(fillings.get(id(9))).toBeUndefined();
    expect(fillings.ofBed('pit-z')).toEqual([]);
  });

  test('one id is one row', () => {
    const { fillings } = openStores().registry;
    fillings.add('ridge', filling(1, AT), 5);
    expect(() => fillings.add('ridge', filling(1, AT), 5)).toThrow(/UNIQUE/);
  });
});

describe('stock at rest', () => {
  test('is given by time, then id, with what each entry follows from', () => {
    const { stock } = openStores().registry;
    stock.add('ridge', { entry: entry(3, AT), origin: null }, 5);
    stock.add('ridge', { entry: entry(2, AT), origin: id(8) }, 5);
    stock.add('ridge', { entry: entry(1, AT + 1), origin: null }, 5);
    expect(stock.ofBed('pit-a')).toEqual([
      { entry: entry(2, AT), origin: id(8) },
      { entry: entry(3, AT), origin: null },
      { entry: entry(1, AT + 1), origin: null },
    ]);
    expect([stock.bedOf(id(1)), stock.bedOf(id(9))]).toEqual(['pit-a', undefined]);
    expect(() => stock.add('ridge', { entry: entry(1, AT), origin: null }, 5)).toThrow(/UNIQUE/);
  });
});

describe('pictures at rest', () => {
  const picture = { name: 'a.jpg', mediaType: 'image/jpeg', bytes: Buffer.from([255, 216, 255, 0]) };

  test('are given back byte for byte, and counted', () => {
    const { photos, inspections } = openStores().registry;
    const look = { bed: 'pit-a', at: AT, by: 'k', opened: true, repacked: false, found: ['rot' as const] };
    inspections.add('ridge', { id: 'i1', ...look }, 5);
    photos.add('i1', picture, 5);
    photos.add('i1', { ...picture, name: '0.png', bytes: Buffer.alloc(7) }, 5);
    expect(photos.get('i1', 'a.jpg')).toEqual({ ...picture, size_bytes: 4 });
    expect(photos.list('i1').map(({ name, size_bytes }) => [name, size_bytes])).toEqual([
      ['0.png', 7],
      ['a.jpg', 4],
    ]);
    expect(photos.total_bytes()).toBe(11);
    expect([photos.get('i1', 'b.jpg'), photos.list('i2')]).toEqual([undefined, []]);
    expect(() => photos.add('i1', picture, 5)).toThrow(/UNIQUE/);
  });

  test('belong to an inspection that is there', () => {
    const { photos } = openStores().registry;
    expect(photos.total_bytes()).toBe(0);
    expect(() => photos.add('i1', picture, 5)).toThrow(/FOREIGN KEY/);
  });
});
