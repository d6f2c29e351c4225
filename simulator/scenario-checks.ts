/** What a scenario's own numbers must agree on: what its shape alone cannot say. */
import { type Block, blocksOf, holdsPoint } from '../services/core/model/bed.js';
import type { Problem } from '../services/core/model/site.js';
import type { ScenarioShape } from './scenario.js';

/** The name under which the probes outside the beds are simulated; no bed may have it. */
export const SHADE = 'shade';

type Bed = ScenarioShape['beds'][number];
type Path = Problem['path'];

/** All that does not hold, with the key and what was expected and what was there. */
export function scenarioProblems(scenario: ScenarioShape): Problem[] {
  return [
    ...timeZoneProblems(scenario.site.timezone),
    ...meanProblems(scenario.weather.means),
    ...idProblems(scenario),
    ...scenario.beds.flatMap((bed, index) => bedProblems(bed, ['beds', index])),
  ];
}

function timeZoneProblems(timezone: string): Problem[] {
  try {
    new Intl.DateTimeFormat('en', { timeZone: timezone });
    return [];
  } catch {
    const message = `expected an IANA time zone such as Africa/Lusaka, got ${JSON.stringify(timezone)}`;
    return [{ path: ['site', 'timezone'], message }];
  }
}

function meanProblems(means: ScenarioShape['weather']['means']): Problem[] {
  return means.flatMap(([day], index) => {
    const before = means[index - 1]?.[0] ?? Number.NEGATIVE_INFINITY;
    if (day > before) return [];
    const message = `expected a day after ${before}: means run in order of days, got ${day}`;
    return [{ path: ['weather', 'means', index], message }];
  });
}

/** Every bed, and every probe of the site, has an id of its own. */
function idProblems({ beds, shade }: ScenarioShape): Problem[] {
  const bedIds = beds.map(({ id }, index) => ({ id, path: ['beds', index, 'id'] }));
  const probeIds = [
    ...beds.flatMap(({ probes }, index) =>
      probes.map(({ id }, at) => ({ id, path: ['beds', index, 'probes', at, 'id'] })),
    ),
    ...shade.map((id, index) => ({ id, path: ['shade', index] })),
  ];
  return [...twice(bedIds, new Set([SHADE])), ...twice(probeIds, new Set())];
}

function twice(ids: readonly { id: string; path: Path }[], taken: Set<string>): Problem[] {
  return ids.flatMap(({ id, path }) => {
    if (taken.has(id)) return [{ path, message: `expected an id not yet taken, got ${JSON.stringify(id)}` }];
    taken.add(id);
    return [];
  });
}

function bedProblems(bed: Bed, path: Path): Problem[] {
  const blocks = blocksOf(bed.steps);
  const problems: Problem[] = [];
  if (bed.kind === 'box' && bed.steps.length !== 1)
    problems.push({
      path: [...path, 'steps'],
      message: `expected exactly one step for a box, got ${bed.steps.length}`,
    });
  const inside = (at: Path, { x, y, depth }: { x: number; y: number; depth: number }): void => {
    if (!holdsPoint(blocks, x, y, depth))
      problems.push({
        path: [...path, ...at],
        message: `expected a point inside bed "${bed.id}", got x ${x}, y ${y}, depth ${depth} cm`,
      });
  };
  bed.probes.forEach((probe, at) => {
    inside(['probes', at], probe);
  });
  if (bed.rot) inside(['rot'], bed.rot);
  if (bed.leak) inside(['leak'], { ...bed.leak, depth: topOf(blocks) });
  return problems;
}

/** Water comes in through the opening. */
const topOf = (blocks: readonly Block[]): number => blocks[0]?.top ?? 0;
