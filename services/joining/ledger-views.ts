/** What the HTTP edge is asked for of fillings, inspections, stock and pictures. */
import { SandlarderError } from '../core/errors.js';
import type { LedgerPorts } from '../http/index.js';
import { depthsNow, depthViews } from './depth-views.js';
import { fillingViews } from './filled-view.js';
import { knownBed } from './known-bed.js';
import { lookViews } from './look-views.js';
import { PhotoDesk } from './photo-desk.js';
import type { RecordDesk } from './record-desk.js';
import type { Station } from './station.js';
import { StockDesk } from './stock-desk.js';
import { stockView } from './stock-view.js';

/** @param now wall clock, ms */
export function createLedgerViews(station: Station, records: RecordDesk, now: () => number): LedgerPorts {
  const stock = new StockDesk(station, now);
  const photos = new PhotoDesk(station, now);
  return {
    records: (bed, body) => records.take(bed, body),
    fillings: (bed) => fillingViews(station, knownBed(station, bed).bed.id),
    depths: (bed, filling) => depthViews(station, knownBed(station, bed), filling),
    depthsNow: (bed) => depthsNow(station, knownBed(station, bed), now()),
    inspections: (bed, { limit, after }) => {
      knownBed(station, bed);
      if (after !== undefined && station.registry.inspections.get(after)?.bed !== bed)
        throw new SandlarderError('NOT_FOUND', `after: no inspection of bed "${bed}" has the id "${after}"`);
      return station.registry.inspections.page(bed, limit, after);
    },
    stock: (bed, query) => stockView(station, stock, knownBed(station, bed), query, now()),
    looks: () => lookViews(station, stock, now()),
    addPhoto: (inspection, name, bytes) => photos.add(inspection, name, bytes),
    photos: (inspection) => photos.list(inspection),
    photo: (inspection, name) => photos.get(inspection, name),
  };
}
