/**
 * Takes in at a centre what edge machines tell of: descriptions of sites, inspections, and alarms with their answers. In
 * the transaction of the batch that brought it; what cannot be taken in is set aside with its reason.
 */
import { z } from 'zod';
import { SandlarderError } from '../../core/errors.js';
import { idSchema } from '../../core/model/id.js';
import { inspectionBodySchema } from '../../core/model/inspection.js';
import { describeIssue } from '../../core/model/problem.js';
import { checkSiteFile } from '../../core/model/site-file.js';
import { timeSchema } from '../../core/model/time.js';
import type { RecordTopic } from '../../intake/index.js';
import { RecordDesk } from '../record-desk.js';
import type { Station } from '../station.js';
import { siteForCentre } from './site-for-centre.js';

/** Why a record is in quarantine. */
export const RECORD_UNFIT = 'record-unfit';

/** Who changed a site description, where its edge did. */
const BY = 'the edge machine of the site';

/** Answers taken over in one go. */
const MOST_ANSWERS = 500;

const heldInspectionSchema = z.looseObject({ id: z.uuid(), bed: idSchema });

const acknowledgementSchema = z.strictObject({
  by: z.string().max(200),
  note: z.string().max(2000),
  at: timeSchema,
});

const alarmSchema = z.looseObject({
  id: z.string().min(1).max(200),
  site: idSchema,
  bed: idSchema,
  acknowledged: acknowledgementSchema.nullable(),
});

export class RecordsIn {
  readonly #station: Station;
  readonly #desk: RecordDesk;
  readonly #now: () => number;

  /** @param now wall clock, ms */
  constructor(station: Station, now: () => number) {
    this.#station = station;
    this.#desk = new RecordDesk(station, now);
    this.#now = now;
  }

  /** @returns why it was not taken in, in words; undefined where it was */
  take({ site, kind }: RecordTopic, payload: Uint8Array): string | undefined {
    try {
      const document: unknown = JSON.parse(Buffer.from(payload).toString('utf8'));
      if (kind === 'site') this.#describe(site, document);
      else if (kind === 'inspection') this.#inspect(site, document);
      else this.#note(site, document);
      return undefined;
    } catch (error) {
      if (error instanceof SyntaxError) return 'expected JSON, got text that is not';
      if (error instanceof z.ZodError) return error.issues.slice(0, 1).map(describeIssue).join();
      if (error instanceof SandlarderError) return error.message;
      throw error;
    }
  }

  /** Takes over what people at edges answered, where the alarm is here by now: of two answers the first stands. */
  takeOver(): void {
    const { edgeAlarms, alarms } = this.#station.registry;
    const answers = edgeAlarms.openAnswers(MOST_ANSWERS);
    if (answers.length === 0) return;
    this.#station.inTransaction(() => {
      for (const { id, bed, acknowledgement } of answers) {
        alarms.unacknowledge(id);
        alarms.acknowledge(id, acknowledgement);
        this.#station.changes.alarms(bed, [id]);
      }
    });
  }

  #describe(site: string, document: unknown): void {
    const { sites } = this.#station.registry;
    const known = sites.descriptions().find((one) => one.site.id === site);
    const described = checkSiteFile('the description', document, known);
    requireOf(site, described.site.id, 'site.id');
    // The same again, as at each start of an edge, is no version of its own.
    if (known && JSON.stringify(siteForCentre(known)) === JSON.stringify(siteForCentre(described))) return;
    this.#station.inTransaction(() => {
      sites.load(described, this.#now(), BY);
      this.#station.refresh();
    });
  }

  #inspect(site: string, document: unknown): void {
    const { bed, ...body } = heldInspectionSchema.parse(document);
    const known = this.#station.directory.beds.get(bed);
    if (known) requireOf(site, known.site.id, 'bed');
    const inspections = [inspectionBodySchema.parse(body)];
    this.#desk.take(bed, { fillings: [], inspections, stock: [] });
  }

  #note(site: string, document: unknown): void {
    const alarm = alarmSchema.parse(document);
    requireOf(site, alarm.site, 'site');
    const { id, bed, acknowledged } = alarm;
    this.#station.registry.edgeAlarms.put(
      { id, site, bed, document: JSON.stringify(document), acknowledgement: acknowledged },
      this.#now(),
    );
  }
}

/** An edge speaks of its own site alone. */
function requireOf(expected: string, got: string, key: string): void {
  if (got !== expected)
    throw new SandlarderError(
      'CONFLICT',
      `${key}: expected what is of site "${expected}", as the topic says, got what is of "${got}"`,
    );
}
