/**
 * What was told of a bed before it was filled last stands: its watch says nothing of that time, as it was another
 * bed. What was open by then was over with it.
 */
import type { Registry } from '../registry/index.js';
import { episodesOpenAt } from './alarm-keeper.js';
import type { Resumed } from './judging-run.js';

/** @param filled event time, ms */
export function seasonBefore(
  registry: Registry,
  bed: string,
  filled: number,
): Pick<Resumed, 'since' | 'open' | 'ended'> {
  const open = episodesOpenAt(registry, bed, filled);
  const ended = open.map(({ kind, action, subject }) => ({
    ...({ type: 'clear', kind, action, subject } as const),
    at: filled,
  }));
  return { since: filled, open, ended };
}
