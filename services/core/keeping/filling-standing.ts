/**
 * What the fillings that were recorded at the beds make of a site's description.
 *
 * A filling stands until a description tells of a later one: `filled` a day or more after it. What a description says of
 * the filling itself, within a day either side, was its plan, and gives way to what was done. So an older file that is
 * loaded again changes nothing of it. Where probes were taken to later on stays.
 */
import { type Filling, massFilled_kg, rootsFilled } from '../model/filling.js';
import type { Bed, BedPlacement, Placement, Probe } from '../model/site.js';
import { DAY_ms } from '../model/time.js';

export interface Described {
  readonly beds: readonly Bed[];
  readonly probes: readonly Probe[];
}

/** Those whose place no other has taken, in order of time. */
export function fillingsInForce(fillings: readonly Filling[]): Filling[] {
  const superseded = new Set(fillings.map(({ supersedes }) => supersedes));
  return fillings
    .filter(({ id }) => !superseded.has(id))
    .toSorted((one, other) => one.at - other.at || (one.id < other.id ? -1 : 1));
}

/** The filling in force that a bed is kept since; undefined where none was recorded. */
export const latestFilling = (fillings: readonly Filling[], bed: string): Filling | undefined =>
  fillingsInForce(fillings).findLast((filling) => filling.bed === bed);

/**
 * The description with all fillings in it; what none concerns is the same object.
 *
 * @param fillings of the site, superseded ones too
 */
export function withFillings({ beds, probes }: Described, fillings: readonly Filling[]): Described {
  const standing = fillingsInForce(fillings);
  const known = new Set(standing.map(({ id }) => id));
  const gone = fillings.filter(({ id }) => !known.has(id));
  return {
    beds: beds.map((bed) => bedWith(bed, standing, gone)),
    probes: probes.map((probe) => probeWith(probe, standing, gone)),
  };
}

/** Whether a description tells of a later filling than the one recorded. */
export const isFilledLater = ({ filled }: Pick<Bed, 'filled'>, { at }: Pick<Filling, 'at'>): boolean =>
  filled !== undefined && filled >= at + DAY_ms;

function bedWith(bed: Bed, standing: readonly Filling[], gone: readonly Filling[]): Bed {
  const last = standing.findLast((filling) => filling.bed === bed.id);
  if (!last) return bed;
  const isOfGone = gone.some((filling) => filling.bed === bed.id && filling.at === bed.filled);
  if (!isOfGone && isFilledLater(bed, last)) return bed;
  const mass_kg = massFilled_kg(last);
  const roots = { count: rootsFilled(last), ...(mass_kg !== undefined && { mass_kg }) };
  return { ...bed, filled: last.at, roots };
}

function probeWith(probe: Probe, standing: readonly Filling[], gone: readonly Filling[]): Probe {
  const buried = (fillings: readonly Filling[]): BedPlacement[] =>
    fillings.flatMap(({ bed, at, probes }) =>
      probes
        .filter((one) => one.probe === probe.id)
        .map(({ x, y, depth }) => ({ bed, x, y, depth, from: at })),
    );
  const wrong = buried(gone);
  const right = buried(standing);
  if (wrong.length === 0 && right.length === 0) return probe;
  const kept = probe.placements.filter((placement) => !wrong.some((one) => isSame(one, placement)));
  return { ...probe, placements: right.reduce(withPlacement, kept) };
}

const isSame = (one: BedPlacement, other: Placement): boolean =>
  !other.ambient &&
  one.bed === other.bed &&
  one.from === other.from &&
  one.x === other.x &&
  one.y === other.y &&
  one.depth === other.depth;

/** In order of time: what went before ends where it begins, and its plan gives it its end. */
function withPlacement(placements: readonly Placement[], buried: BedPlacement): Placement[] {
  const isPlan = (one: Placement): boolean =>
    !one.ambient && one.bed === buried.bed && Math.abs(one.from - buried.from) < DAY_ms;
  const end = placements.findLast(isPlan)?.to;
  const others = placements.filter((one) => !isPlan(one));
  const before = others.filter(({ from }) => from < buried.from).map((one) => endedBy(one, buried.from));
  const after = others.filter(({ from }) => from >= buried.from);
  return [...before, { ...buried, ...(end !== undefined && end > buried.from && { to: end }) }, ...after];
}

const endedBy = (placement: Placement, at: number): Placement =>
  placement.to === undefined || placement.to <= at ? placement : { ...placement, to: at };
