/**
 * Takes in what was written down at a bed: fillings, inspections, stock. All of it in one transaction or none; a record
 * that came before is no second one.
 */
import { randomUUID } from 'node:crypto';
import { SandlarderError } from '../core/errors.js';
import { isSameRecord } from '../core/keeping/index.js';
import { type Filling, type FillingBody, fillingProblems } from '../core/model/filling.js';
import type { Inspection, InspectionBody } from '../core/model/inspection.js';
import { keyOf } from '../core/model/problem.js';
import { formatTime } from '../core/model/time.js';
import type { InspectedView, RecordsBody, RecordsView } from '../http/index.js';
import type { KnownBed } from './directory.js';
import { filledView } from './filled-view.js';
import { inspectedView, openAlarms } from './inspected-view.js';
import { knownBed, requireCome } from './known-bed.js';
import { probesTaken } from './probes-taken.js';
import type { Station } from './station.js';
import { StockDesk } from './stock-desk.js';

/** A record, and whether it was not there before. */
export interface Entered<Kept> {
  readonly record: Kept;
  readonly isNew: boolean;
}

export interface Filled extends Entered<Filling> {
  /** Notes on probes that stood elsewhere. */
  readonly taken: readonly string[];
}

const recordsOf = <Kept>(entered: readonly Entered<Kept>[]): Kept[] =>
  entered.filter(({ isNew }) => isNew).map(({ record }) => record);

const NOTHING: RecordsBody = { fillings: [], inspections: [], stock: [] };

export class RecordDesk {
  readonly #station: Station;
  /** Wall clock, ms. */
  readonly #now: () => number;
  readonly #stock: StockDesk;

  constructor(station: Station, now: () => number) {
    this.#station = station;
    this.#now = now;
    this.#stock = new StockDesk(station, now);
  }

  inspect(bed: string, body: InspectionBody): InspectedView {
    const [view] = this.take(bed, { ...NOTHING, inspections: [body] }).inspections;
    return view as InspectedView;
  }

  /**
   * @throws SandlarderError NOT_FOUND for a bed, or a filling to be superseded; BAD_REQUEST for a probe that is not of
   * the site and a place outside the bed; CONFLICT for a time in the future or before the bed was filled, for an id that
   * is there with other content, and for more roots out than were in
   */
  take(bed: string, { fillings, inspections, stock }: RecordsBody): RecordsView {
    return this.#station.inTransaction(() => {
      const { site } = knownBed(this.#station, bed);
      const leftBefore = this.#stock.left(bed);
      const filled = fillings.map((body) => this.#fill(bed, body));
      const [added] = recordsOf(filled);
      if (added) {
        this.#station.registry.sites.applyFillings(site.id, this.#now(), added.by);
        this.#station.refresh();
      }
      const known = knownBed(this.#station, bed);
      const openBefore = openAlarms(this.#station, bed);
      const inspected = inspections.map((body) => this.#inspect(known, body));
      const entries = this.#stock.enter(known, stock, recordsOf(filled));
      const looks = recordsOf(inspected);
      for (const look of looks) this.#answer(look);
      const judged = this.#station.noteInspections(
        bed,
        looks.map(({ at }) => at),
      );
      const left = this.#stock.left(bed);
      const now = this.#now();
      return {
        fillings: filled.map((one) => filledView(this.#station, known, one, leftBefore)),
        inspections: inspected.map((one) =>
          inspectedView(this.#station, one, { openBefore, judged, left, now }),
        ),
        stock: entries,
        left,
      };
    });
  }

  #fill(bed: string, body: FillingBody): Filled {
    const { registry } = this.#station;
    const filling: Filling = { ...body, bed };
    const before = registry.fillings.get(filling.id);
    if (before) return { ...there('filling', before, filling), taken: [] };
    const known = knownBed(this.#station, bed);
    requireCome(filling.at, this.#now());
    this.#requireFilling(known, filling);
    const taken = probesTaken(this.#station.directory, known.site.id, filling);
    registry.fillings.add(known.site.id, filling, this.#now());
    return { record: filling, isNew: true, taken };
  }

  #requireFilling({ site, bed }: KnownBed, filling: Filling): void {
    const [problem] = fillingProblems(filling, bed.steps);
    if (problem) throw new SandlarderError('BAD_REQUEST', `${keyOf(problem.path)}: ${problem.message}`);
    filling.probes.forEach(({ probe }, at) => {
      if (!this.#station.directory.find(site.id, probe))
        throw new SandlarderError(
          'BAD_REQUEST',
          `probes[${at}].probe: expected a probe of site "${site.id}", got "${probe}"`,
        );
    });
    if (filling.supersedes !== undefined) this.#requireSuperseded(bed.id, filling.supersedes);
  }

  #requireSuperseded(bed: string, id: string): void {
    const fillings = this.#station.registry.fillings.ofBed(bed);
    if (!fillings.some((one) => one.id === id))
      throw new SandlarderError('NOT_FOUND', `supersedes: no filling of bed "${bed}" has the id ${id}`);
    const other = fillings.find(({ supersedes }) => supersedes === id);
    if (other)
      throw new SandlarderError(
        'CONFLICT',
        `supersedes: expected a filling that is in force, got ${id}, whose place ${other.id} has taken`,
      );
  }

  #inspect({ site, bed }: KnownBed, { id = randomUUID(), ...body }: InspectionBody): Entered<Inspection> {
    const { registry } = this.#station;
    const inspection: Inspection = { id, bed: bed.id, ...body };
    const before = registry.inspections.get(id);
    if (before) return there('inspection', before, inspection);
    requireCome(body.at, this.#now());
    // Where fillings are written down the bed had one before; a description alone may have been corrected.
    const isRefilled = registry.fillings.ofBed(bed.id).length > 0;
    const filledAt = isRefilled ? registry.sites.firstFilledAt(bed.id) : bed.filled;
    if (filledAt !== undefined && !(body.at >= filledAt))
      throw new SandlarderError(
        'CONFLICT',
        `at: expected a time after the bed was filled, ${formatTime(filledAt)}, got ${formatTime(body.at)}`,
      );
    registry.inspections.add(site.id, inspection, this.#now());
    return { record: inspection, isNew: true };
  }

  /** Whoever opens a bed has seen what its alarms asked for: they are acknowledged, unless somebody did before. */
  #answer({ bed, at, by, opened }: Inspection): void {
    if (!opened) return;
    for (const { id, action, raisedAt } of openAlarms(this.#station, bed))
      if (raisedAt <= at && (action === 'unpack' || action === 'check')) {
        this.#station.registry.alarms.acknowledge(id, { by, note: 'by what was found', at: this.#now() });
        this.#station.changes.alarms(bed, [id]);
      }
  }
}

/** @throws SandlarderError CONFLICT where it says something else */
function there<Kept extends { readonly id: string }>(
  name: string,
  before: Kept,
  arrived: Kept,
): Entered<Kept> {
  if (!isSameRecord(before, arrived))
    throw new SandlarderError(
      'CONFLICT',
      `${name} ${arrived.id}: expected the content that is there already, got another; to correct it takes a new one`,
    );
  return { record: before, isNew: false };
}
