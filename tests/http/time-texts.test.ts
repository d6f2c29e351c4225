import { expect, test } from 'vitest';
import { DAY_ms, EARLIEST_TIME_ms, formatTime, LATEST_TIME_ms } from '../../services/core/model/time.js';
import { timeTexts } from '../../services/http/schemas/time-texts.js';
import { seeded } from '../support/season.js';

test('times in any order are written as one by one', () => {
  const random = seeded(1);
  const drawn = Array.from({ length: 500 }, () => {
    const time = EARLIEST_TIME_ms + Math.floor(random() * (LATEST_TIME_ms - EARLIEST_TIME_ms));
    return [time, Math.floor(time / 1000) * 1000];
  }).flat();
  const edges = [0, -1000, DAY_ms - 1000, DAY_ms, DAY_ms + 1, EARLIEST_TIME_ms, LATEST_TIME_ms - 1000];
  const times = [...drawn, ...edges, ...edges];
  expect(timeTexts(times)).toEqual(times.map(formatTime));
});
