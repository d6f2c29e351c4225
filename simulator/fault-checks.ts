/** What the faults of a scenario must agree on with its probes and beds. */
import type { Problem } from '../services/core/model/site.js';
import type { ScenarioShape } from './scenario.js';
import type { Outage, ProbeFault } from './scenario-faults.js';
import { SHADE } from './scenario-numbers.js';

export function faultProblems({ beds, shade, faults }: ScenarioShape): Problem[] {
  const buried = new Set(beds.flatMap(({ probes }) => probes.map(({ id }) => id)));
  const parts = new Set([...beds.map(({ id }) => id), SHADE]);
  return [
    ...faults.probes.flatMap((fault, index) => probeProblems(fault, buried, new Set(shade), index)),
    ...twiceProblems(faults.probes),
    ...faults.outages.flatMap((outage, index) => outageProblems(outage, parts, index)),
  ];
}

function probeProblems(
  { probe, kind }: ProbeFault,
  buried: ReadonlySet<string>,
  shade: ReadonlySet<string>,
  index: number,
): Problem[] {
  const path = ['faults', 'probes', index, 'probe'];
  if (!buried.has(probe) && !shade.has(probe))
    return [{ path, message: `expected a probe of the site, got ${JSON.stringify(probe)}` }];
  if (kind === 'pulled' && !buried.has(probe))
    return [
      {
        path,
        message: `expected a probe in a bed, which can be pulled out of its sand, got ${JSON.stringify(probe)}`,
      },
    ];
  return [];
}

/** A probe has a fault once at a time: a drift that begins twice would be one of another rate. */
function twiceProblems(faults: readonly ProbeFault[]): Problem[] {
  return faults.flatMap((fault, index) => {
    const earlier = faults
      .slice(0, index)
      .find((other) => other.probe === fault.probe && other.kind === fault.kind && overlap(other, fault));
    if (!earlier) return [];
    const message = `expected "${fault.kind}" of probe "${fault.probe}" once at a time, got it from day ${earlier.startDay} and from day ${fault.startDay}`;
    return [{ path: ['faults', 'probes', index], message }];
  });
}

const endOf = ({ startDay, days }: ProbeFault): number => startDay + (days ?? Number.POSITIVE_INFINITY);

const overlap = (one: ProbeFault, other: ProbeFault): boolean =>
  one.startDay < endOf(other) && other.startDay < endOf(one);

function outageProblems({ part }: Outage, parts: ReadonlySet<string>, index: number): Problem[] {
  if (parts.has(part)) return [];
  const message = `expected the id of a bed, or "${SHADE}", got ${JSON.stringify(part)}`;
  return [{ path: ['faults', 'outages', index, 'part'], message }];
}
