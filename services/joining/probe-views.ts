/** Described probes as they stand now: where, since when, heard when, calibrated until when. */
import type { Probe } from '../core/model/site.js';
import type { DueView, KnownProbeView, ProbeQuery } from '../http/index.js';
import type { CalibrationDesk } from './calibration-desk.js';
import { type KnownProbe, type Stay, stayAt } from './directory.js';
import { knownBed } from './known-bed.js';
import type { Station } from './station.js';

interface Parts {
  readonly station: Station;
  readonly calibrations: CalibrationDesk;
  /** Wall clock, ms. */
  readonly now: () => number;
}

/** In order of site and id. */
export function probePage(
  { station, calibrations, now }: Parts,
  { site, bed, limit, after }: ProbeQuery,
): { probes: KnownProbeView[]; more: boolean } {
  if (bed !== undefined) knownBed(station, bed);
  const at = now();
  const wanted = knownProbes(station, site)
    .filter((known) => bed === undefined || stayAt(known, at)?.placement?.bed === bed)
    .filter((known) => after === undefined || nameOf(known) > after);
  const due = dueByProbe(calibrations.due());
  const probes = wanted
    .slice(0, limit)
    .map((known) => viewOf(station, known, due.get(nameOf(known)) ?? [], at));
  return { probes, more: wanted.length > limit };
}

const nameOf = ({ site, probe }: KnownProbe): string => `${site}/${probe.id}`;

function knownProbes({ registry, directory }: Station, site: string | undefined): KnownProbe[] {
  return registry.sites
    .descriptions()
    .filter((one) => site === undefined || one.site.id === site)
    .flatMap((one) => one.probes.flatMap(({ id }: Probe) => directory.find(one.site.id, id) ?? []))
    .sort((one, other) => (nameOf(one) < nameOf(other) ? -1 : 1));
}

function dueByProbe(due: readonly DueView[]): Map<string, DueView[]> {
  const byProbe = new Map<string, DueView[]>();
  for (const view of due) {
    const name = `${view.site}/${view.probe}`;
    byProbe.set(name, [...(byProbe.get(name) ?? []), view]);
  }
  return byProbe;
}

function viewOf(station: Station, known: KnownProbe, due: readonly DueView[], at: number): KnownProbeView {
  const { site, probe, key, stays } = known;
  const { archive, registry } = station;
  const latest = archive.readings.latest(key);
  const stay = stayAt(known, at);
  return {
    ...{ site, id: probe.id, model: probe.model ?? null, placements: stays.length },
    version: registry.siteVersions.ofEntry('probe', site, probe.id) ?? 0,
    stands: stay ? placeOf(stay) : null,
    since: stay?.from ?? outSince(stays, at),
    online: archive.status.get(key),
    lastHeardAt: latest?.time ?? null,
    battery_V: latest?.battery ?? null,
    charge_EL: latest?.charge ?? null,
    onBenchSince: station.benchSince(site, probe.id) ?? null,
    calibrations: due.map(({ quantity, calibration, dueAt, isDue }) => ({
      ...{ quantity, calibration, dueAt, isDue },
    })),
  };
}

function placeOf({ placement }: Stay): KnownProbeView['stands'] {
  if (!placement) return { ambient: true };
  const { bed, x, y, depth } = placement;
  return { bed, x, y, depth };
}

function outSince(stays: readonly Stay[], at: number): number | null {
  const ends = stays.map(({ to }) => to).filter((to) => to <= at);
  return ends.length === 0 ? null : Math.max(...ends);
}
