/**
 * The sites as they stand, arranged for looking up: which probe is where, and what each bed's watch must know.
 */
import { createHash } from 'node:crypto';
import type {
  Bed,
  BedPlacement,
  Person,
  Placement,
  Probe,
  Site,
  SiteDescription,
} from '../core/model/site.js';
import { thresholdsInForce } from '../core/model/threshold.js';
import { HOUR_ms } from '../core/model/time.js';
import type { WatchedBed } from '../core/watch/watch.js';

/** A stay of a probe somewhere: `from <= time < to`. */
export interface Stay {
  readonly from: number;
  readonly to: number;
  /** Absent in the shade. */
  readonly placement?: BedPlacement;
}

export interface KnownProbe {
  readonly site: string;
  readonly probe: Probe;
  readonly key: number;
  readonly stays: readonly Stay[];
}

export interface KnownBed {
  readonly site: Site;
  /** As described, with the clock of its site. */
  readonly bed: Bed & { readonly timeZone: string };
  readonly keeper: Person | undefined;
  readonly watched: WatchedBed;
  /** Probes with a stay in this bed, and those with a stay in the shade of its site; in order of id. */
  readonly probes: readonly KnownProbe[];
  readonly shade: readonly KnownProbe[];
  /** Changes whenever the description changes in a way that the watch sees. */
  readonly digest: string;
}

function staysOf(placements: readonly Placement[]): Stay[] {
  return placements.map((placement, index) => {
    const to = placement.to ?? placements[index + 1]?.from ?? Number.POSITIVE_INFINITY;
    return placement.ambient ? { from: placement.from, to } : { from: placement.from, to, placement };
  });
}

const byId = (one: KnownProbe, other: KnownProbe): number => (one.probe.id < other.probe.id ? -1 : 1);

export const staysInBed = (probe: KnownProbe, bed: string): Stay[] =>
  probe.stays.filter((stay) => stay.placement?.bed === bed);

export const staysInShade = (probe: KnownProbe): Stay[] => probe.stays.filter((stay) => !stay.placement);

/** Where a probe stands at a time, ms; undefined where it is taken out, or stands nowhere yet. */
export const stayAt = ({ stays }: KnownProbe, at: number): Stay | undefined =>
  stays.findLast(({ from, to }) => from <= at && at < to);

/** Whether a probe stood there during the whole hour. */
export const covers = (stays: readonly Stay[], hour: number): boolean =>
  stays.some((stay) => stay.from <= hour && stay.to >= hour + HOUR_ms);

/** The archive's key of a probe. */
export type KeyOf = (site: string, probe: string) => number;

export class Directory {
  readonly #probes = new Map<string, KnownProbe>();
  readonly beds = new Map<string, KnownBed>();

  /** Gives every probe its key in the archive: call it inside a transaction. */
  constructor(descriptions: readonly SiteDescription[], keyOf: KeyOf) {
    for (const description of descriptions) this.#addSite(description, keyOf);
  }

  find(site: string, probe: string): KnownProbe | undefined {
    return this.#probes.get(`${site}/${probe}`);
  }

  get probes(): Iterable<KnownProbe> {
    return this.#probes.values();
  }

  get probeCount(): number {
    return this.#probes.size;
  }

  #addSite({ site, beds, probes, people }: SiteDescription, keyOf: KeyOf): void {
    const known = probes
      .map((probe) => ({
        site: site.id,
        probe,
        key: keyOf(site.id, probe.id),
        stays: staysOf(probe.placements),
      }))
      .sort(byId);
    for (const probe of known) this.#probes.set(`${site.id}/${probe.probe.id}`, probe);
    const shade = known.filter((probe) => staysInShade(probe).length > 0);
    for (const bed of beds) {
      const here = known.filter((probe) => staysInBed(probe, bed.id).length > 0);
      const keeper = people.find((person) => person.id === bed.keeper);
      this.beds.set(bed.id, {
        site,
        bed: { ...bed, timeZone: site.timezone },
        keeper,
        probes: here,
        shade,
        ...watchedBed(site, bed, here, shade),
      });
    }
  }
}

function watchedBed(
  site: Site,
  bed: Bed,
  probes: readonly KnownProbe[],
  shade: readonly KnownProbe[],
): { watched: WatchedBed; digest: string } {
  const placements = new Map(
    probes.map((probe) => [
      probe.probe.id,
      staysInBed(probe, bed.id).flatMap(({ placement, to }): BedPlacement[] =>
        placement ? [Number.isFinite(to) ? { ...placement, to } : placement] : [],
      ),
    ]),
  );
  const watched = { bed, thresholds: thresholdsInForce(site.thresholds, bed.thresholds), placements };
  const { name, keeper, escalation, thresholds: _, ...seen } = bed;
  const told = [
    seen,
    watched.thresholds,
    [...placements],
    shade.map((probe) => [probe.probe.id, staysInShade(probe)]),
  ];
  const digest = createHash('sha256').update(JSON.stringify(told)).digest('hex').slice(0, 16);
  return { watched, digest };
}
