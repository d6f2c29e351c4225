/** What is at rest of the beds of a trial. */
import { fillingsInForce, type Ledger } from '../core/keeping/index.js';
import { type Filling, massFilled_kg, rootsFilled } from '../core/model/filling.js';
import { DAY_ms } from '../core/model/time.js';
import type { Trial } from '../core/model/trial.js';
import type { BedMaterial } from '../core/trials/index.js';
import { type KnownBed, staysInBed } from './directory.js';
import { lossLooks } from './loss-looks.js';
import type { Station } from './station.js';
import { StockDesk } from './stock-desk.js';

/** A bed may be filled some days before its trial is said to begin, ms. */
const BEFORE_ms = 3 * DAY_ms;

/**
 * One after the other, with room for other work between: a bed-season of excess takes tens of milliseconds.
 *
 * @param now wall clock, ms: what lies beyond it does not count
 */
export async function trialMaterials(station: Station, trial: Trial, now: number): Promise<BedMaterial[]> {
  const materials: BedMaterial[] = [];
  for (const { bed } of trial.beds) {
    const known = station.directory.beds.get(bed);
    const material = known && materialOf(station, trial, known, now);
    if (material) materials.push(material);
    await new Promise((resolve) => setImmediate(resolve));
  }
  return materials;
}

function materialOf(station: Station, trial: Trial, known: KnownBed, now: number): BedMaterial | undefined {
  const { registry } = station;
  const { id } = known.bed;
  const fillings = fillingsInForce(registry.fillings.ofBed(id));
  const end = Math.min(trial.to ?? Number.POSITIVE_INFINITY, now);
  const filling = fillings.find(({ at }) => at >= trial.from - BEFORE_ms && at < end);
  const filledAt = filling?.at ?? describedAt(known, trial, end);
  if (filledAt === undefined) return undefined;
  const next = fillings.find(({ at }) => at > filledAt);
  const to = Math.min(end, next?.at ?? end);
  const ledger = new StockDesk(station, () => now).ledger(id);
  const until = <Entry extends { readonly at: number }>(entries: readonly Entry[]): Entry[] =>
    entries.filter(({ at }) => at <= to);
  return {
    ...{ bed: id, filledAt, ...filledWith(filling) },
    ledger: { ...ledger, entries: until(ledger.entries) } satisfies Ledger,
    inspections: registry.inspections.between(id, filledAt, to + 1),
    looks: until(lossLooks(station, ledger, filledAt)),
    excess: dailyExcess(station, known, filledAt, to),
  };
}

const describedAt = ({ bed }: KnownBed, { from }: Trial, end: number): number | undefined =>
  bed.filled !== undefined && bed.filled >= from - BEFORE_ms && bed.filled < end ? bed.filled : undefined;

const filledWith = (filling: Filling | undefined): Pick<BedMaterial, 'roots' | 'mass_kg'> =>
  filling === undefined
    ? { roots: null, mass_kg: null }
    : { roots: rootsFilled(filling), mass_kg: massFilled_kg(filling) ?? null };

/** The highest of all probes of the bed, by day in UTC. */
function dailyExcess(station: Station, known: KnownBed, from: number, to: number): BedMaterial['excess'] {
  const days = new Map<number, number>();
  for (const probe of known.probes)
    for (const stay of staysInBed(probe, known.bed.id)) {
      const span = { from: Math.max(from, stay.from), to: Math.min(to, stay.to) };
      for (const { at, excess } of station.archive.judged.dailyExcess(probe.key, span))
        days.set(at, Math.max(excess, days.get(at) ?? Number.NEGATIVE_INFINITY));
    }
  return [...days].map(([at, excess_C]) => ({ at, excess_C })).sort((one, other) => one.at - other.at);
}
