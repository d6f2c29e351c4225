/** Sand as it is judged and kept for beds. */
import { randomUUID } from 'node:crypto';
import { SandlarderError } from '../core/errors.js';
import { limitsOfBed, sandDocument, sandReport } from '../core/keeping/index.js';
import type { SandBody, SandRecord } from '../core/model/sand.js';
import type { SandPorts, SandView } from '../http/index.js';
import type { KnownBed } from './directory.js';
import { knownBed, requireCome, requireSame } from './known-bed.js';
import type { Station } from './station.js';

/** @param now wall clock, ms */
export function sandDesk(station: Station, now: () => number): SandPorts {
  const viewOf = (known: KnownBed, record: SandRecord): SandView => ({
    record,
    report: sandDocument(sandReport(record.measured, sandLimitsOf(known))),
  });
  return {
    judge: (body) => sandDocument(sandReport(measuredIn(body))),
    keep: (id, body) => {
      const known = knownBed(station, id);
      const record = recordOf(known, body, now());
      const before = station.registry.sandTests.get(record.id);
      if (before) return viewOf(known, requireSame(before, { ...record, at: body.at ?? before.at }));
      // Before it is kept, so that what cannot be is refused.
      const view = viewOf(known, record);
      station.inTransaction(() => station.registry.sandTests.add(known.site.id, record, now()));
      station.changes.bed(id);
      return view;
    },
    list: (id, limit) => {
      const known = knownBed(station, id);
      return station.registry.sandTests.list(id, limit).map((record) => viewOf(known, record));
    },
  };
}

const sandLimitsOf = ({ site, bed }: KnownBed) => limitsOfBed(site.thresholds, bed.thresholds).sand;

const measuredIn = ({ id: _, by: __, at: ___, note: ____, ...measured }: SandBody): SandRecord['measured'] =>
  measured;

function recordOf({ bed }: KnownBed, body: SandBody, now: number): SandRecord {
  const { by, at = now, note } = body;
  if (by === undefined)
    throw new SandlarderError('BAD_REQUEST', 'by: expected who measured it, since it is kept, got nobody');
  requireCome(at, now);
  return {
    ...{ id: body.id ?? randomUUID(), bed: bed.id, at, by },
    ...(note !== undefined && { note }),
    measured: measuredIn(body),
  };
}
