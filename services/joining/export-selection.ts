/** From what is asked to be exported to stays of probes, in an order that does not depend on how it was asked. */
import { SandlarderError } from '../core/errors.js';
import type { Quantity } from '../core/model/quantity.js';
import { formatTime } from '../core/model/time.js';
import type { ExportQuery } from '../http/index.js';
import type { ExportPlace } from '../tables/export/index.js';
import {
  type Directory,
  type KnownBed,
  type KnownProbe,
  type Stay,
  staysInBed,
  staysInShade,
} from './directory.js';

/** A probe at a place, for as much of its time there as was asked for. */
export interface ChosenStay {
  readonly known: KnownProbe;
  readonly key: number;
  readonly place: ExportPlace;
  /** Event times [from, to), ms. */
  readonly from: number;
  readonly to: number;
  /** The whole stay, ms. */
  readonly stoodFrom: number;
  readonly stoodTo: number;
  /** Beds whose watch sees it. */
  readonly seenBy: readonly string[];
}

export interface Selection {
  readonly beds: readonly KnownBed[];
  readonly stays: readonly ChosenStay[];
  readonly quantities: readonly Quantity[];
  readonly hasShade: boolean;
}

/** Beds of a trial; undefined where no trial has the id. */
export type BedsOfTrial = (trial: string) => readonly string[] | undefined;

const inOrder = <Thing>(things: readonly Thing[], name: (thing: Thing) => string): Thing[] =>
  [...things].sort((one, other) => (name(one) < name(other) ? -1 : 1));

/** @throws SandlarderError NOT_FOUND for a bed, site or trial that there is not; BAD_REQUEST for a span without time */
export function selectionOf(directory: Directory, bedsOfTrial: BedsOfTrial, query: ExportQuery): Selection {
  const { from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY, site, quantities } = query;
  if (!(from < to))
    throw new SandlarderError(
      'BAD_REQUEST',
      `from: expected a time before to, ${formatTime(to)}, got ${formatTime(from)}`,
    );
  const beds = inOrder(bedsOf(directory, bedsOfTrial, query), ({ site: { id }, bed }) => `${id}/${bed.id}`);
  // All of a site is its shade too.
  const hasShade = query.shade ?? site !== undefined;
  const inBeds = beds.flatMap((known) =>
    known.probes.flatMap((probe) =>
      staysInBed(probe, known.bed.id).map((stay) => ({ probe, stay, seenBy: [known] })),
    ),
  );
  const shade = hasShade ? shadeOf(beds) : [];
  const stays = [...inBeds, ...shade].flatMap(({ probe, stay, seenBy }) =>
    chosen(
      probe,
      stay,
      { from, to },
      seenBy.map(({ bed }) => bed.id),
    ),
  );
  return { beds, stays, quantities: [...new Set(quantities)], hasShade };
}

function bedsOf(
  directory: Directory,
  bedsOfTrial: BedsOfTrial,
  { beds, site, trial }: ExportQuery,
): KnownBed[] {
  if (site !== undefined) {
    const all = [...directory.beds.values()].filter((known) => known.site.id === site);
    if (all.length === 0) throw new SandlarderError('NOT_FOUND', `no site with beds has the id "${site}"`);
    return all;
  }
  const ids = trial === undefined ? beds : bedsOfTrial(trial);
  if (ids === undefined) throw new SandlarderError('NOT_FOUND', `no trial has the id "${trial}"`);
  return [...new Set(ids)].map((id) => {
    const known = directory.beds.get(id);
    if (!known) throw new SandlarderError('NOT_FOUND', `no bed has the id "${id}"`);
    return known;
  });
}

/** Each probe in the shade once, with the beds that see it. */
function shadeOf(beds: readonly KnownBed[]): { probe: KnownProbe; stay: Stay; seenBy: KnownBed[] }[] {
  const seenBy = new Map<KnownProbe, KnownBed[]>();
  for (const bed of beds)
    for (const probe of bed.shade) seenBy.set(probe, [...(seenBy.get(probe) ?? []), bed]);
  return inOrder([...seenBy], ([probe]) => `${probe.site}/${probe.probe.id}`).flatMap(([probe, by]) =>
    staysInShade(probe).map((stay) => ({ probe, stay, seenBy: by })),
  );
}

function chosen(
  probe: KnownProbe,
  { from, to, placement }: Stay,
  asked: { readonly from: number; readonly to: number },
  seenBy: readonly string[],
): ChosenStay[] {
  const span = { from: Math.max(from, asked.from), to: Math.min(to, asked.to, Number.MAX_SAFE_INTEGER) };
  if (!(span.from < span.to)) return [];
  const position = placement ? { x: placement.x, y: placement.y, depth: placement.depth } : null;
  const place = { site: probe.site, bed: placement?.bed ?? null, probe: probe.probe.id, position };
  return [{ known: probe, key: probe.key, place, ...span, stoodFrom: from, stoodTo: to, seenBy }];
}
