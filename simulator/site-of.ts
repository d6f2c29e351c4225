/** A scenario as the service and people see it: its site description. */
import { formatTime } from '../services/core/model/time.js';
import type { Scenario } from './scenario.js';

/** By the bed's number: an id made from the bed's own could be longer than ids may be. */
const keeperOf = (index: number): string => `keeper-${index + 1}`;

/**
 * The site file of a scenario.
 *
 * @param from when the season begins, ms
 */
export function siteOf({ site, beds, shade }: Scenario, from: number): unknown {
  const since = formatTime(from);
  return {
    version: 1,
    site,
    beds: beds.map(({ id, name, kind, steps, roots }, index) => ({
      ...{ id, name, kind, steps, filled: since, roots, keeper: keeperOf(index) },
    })),
    probes: [
      ...beds.flatMap((bed) =>
        bed.probes.map(({ id, x, y, depth }) => ({
          id,
          model: 'simulated, humidity and temperature',
          placements: [{ bed: bed.id, x, y, depth, from: since }],
        })),
      ),
      ...shade.map((id) => ({
        id,
        model: 'simulated, in the shade',
        placements: [{ ambient: true, from: since }],
      })),
    ],
    people: beds.map(({ name }, index) => ({
      id: keeperOf(index),
      name: `Keeper of ${name}`,
      language: 'en',
      reach: [],
    })),
  };
}
