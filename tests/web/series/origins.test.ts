import { expect, test } from 'vitest';
import { columnsOf } from '../../../services/web/bed/series/columns.js';
import { originOf } from '../../../services/web/bed/series/origins.js';

const read = (readFrom?: readonly ('full-rate' | 'hours' | 'long-archive')[], note?: string) =>
  columnsOf(
    {
      ...{ probe: 'p01', time: [], temperature_C: [], temperatureUncertainty_C: [], temperatureDoubt: [] },
      ...{ humidity_RH: [], humidityUncertainty_RH: [], flagged: [], thinned: false },
      ...(readFrom && { readFrom }),
    },
    note,
  );

test('where a series was read is said once, and so is why it is coarser than it might be', () => {
  const away = 'the long archive does not answer';
  const parts = [read(['hours', 'full-rate'], away), read(['full-rate'], away), read(['long-archive'])];
  expect(originOf(parts)).toEqual({ from: ['full-rate', 'hours', 'long-archive'], notes: [away] });
  expect(originOf([read(['hours'])])).toEqual({ from: ['hours'], notes: [] });
  expect(originOf([read()])).toEqual({ from: [], notes: [] });
});
