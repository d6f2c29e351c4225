/** A station over a real database, without sockets, that is closed after the test. */
import { onTestFinished } from 'vitest';
import { sandWatch } from '../../services/core/watch/sand-watch.js';
import type { Watch } from '../../services/core/watch/watch.js';
import { temporaryDirectory } from './open.js';
import { NOW, standStation, type TestStation } from './standing-station.js';

export { inBatches, NOW, type TestStation } from './standing-station.js';

/** @param now wall clock, ms */
export function openStation({
  directory = temporaryDirectory(),
  watch = sandWatch as Watch,
  now = () => NOW,
} = {}): TestStation {
  const station = standStation(directory, { watch, now });
  onTestFinished(() => {
    station.close();
  });
  return station;
}
