/** What a scenario's own numbers must agree on: what its shape alone cannot say. */
import type { Problem } from '../services/core/model/site.js';
import { bedProblems } from './bed-checks.js';
import { faultProblems } from './fault-checks.js';
import type { ScenarioShape } from './scenario.js';
import { SHADE } from './scenario-numbers.js';

type Path = Problem['path'];

/** All that does not hold, with the key and what was expected and what was there. */
export function scenarioProblems(scenario: ScenarioShape): Problem[] {
  return [
    ...timeZoneProblems(scenario.site.timezone),
    ...meanProblems(scenario.weather.means),
    ...idProblems(scenario),
    ...scenario.beds.flatMap((bed, index) => bedProblems(bed, ['beds', index])),
    ...faultProblems(scenario),
    ...shadeProblems(scenario),
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

/** Sun on a probe in the shade needs one. */
function shadeProblems({ shade, shadeSunlit_C }: ScenarioShape): Problem[] {
  if (shade.length > 0 || shadeSunlit_C === 0) return [];
  return [
    {
      path: ['shadeSunlit_C'],
      message: `expected 0 where there is no probe in the shade, got ${shadeSunlit_C}`,
    },
  ];
}
