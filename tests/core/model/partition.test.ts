import { describe, expect, test } from 'vitest';
import {
  partitionName,
  partitionOf,
  partitionPrefix,
  partitionSession,
} from '../../../services/core/model/partition.js';

describe('the partition of a site', () => {
  test('is what it was in every version before: bridges hold it', () => {
    const sites = ['ridge-station', 'test-ridge', 'a', 'z'.repeat(32), 'site-000001'];
    expect(sites.map((site) => partitionOf(site, 12))).toEqual([8, 1, 3, 2, 9]);
  });

  test('is one of them, also where there is one', () => {
    expect(partitionOf('ridge-station', 1)).toBe(0);
    for (let site = 0; site < 1000; site += 1) expect(partitionOf(`s${site}`, 7)).toBeLessThan(7);
  });

  test.each([3, 12, 64])('divides 10,000 sites among %i evenly, numbered as they are', (partitions) => {
    const drawn = Array.from({ length: 10_000 }, (_, site) =>
      partitionOf(`site-${String(site).padStart(6, '0')}`, partitions),
    );
    const even = drawn.length / partitions;
    // Five standard deviations of a fair draw.
    const most = 5 * Math.sqrt(even);
    for (let partition = 0; partition < partitions; partition += 1) {
      const count = drawn.filter((one) => one === partition).length;
      expect(Math.abs(count - even)).toBeLessThan(most);
    }
  });
});

test('names', () => {
  expect(partitionName(7)).toBe('p007');
  expect(partitionPrefix('north', 7)).toBe('sandlarder-centre/north/p007/');
  expect(partitionSession('north', 123)).toBe('sandlarder-north-p123');
});
