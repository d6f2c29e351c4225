/** Whether rot is known to lie in a bed, by what was written down since it was filled. */
import { type RotStanding, rotStanding } from '../core/keeping/index.js';
import { LATEST_TIME_ms } from '../core/model/time.js';
import type { KnownBed } from './directory.js';
import type { Station } from './station.js';

/** @param rootsLeft null where its stock is not kept: a bed without roots has no rot */
export function rotOf({ registry }: Station, { bed }: KnownBed, rootsLeft: number | null): RotStanding {
  const standing = rotStanding(registry.inspections.between(bed.id, bed.filled ?? 0, LATEST_TIME_ms));
  return rootsLeft === 0 ? { ...standing, left: null } : standing;
}
