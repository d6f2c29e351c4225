/** Exports: rows as they are read, and the documents that travel with them. */
import type { Archive } from '../archive/index.js';
import { SandlarderError } from '../core/errors.js';
import { CALIBRATED_QUANTITIES } from '../core/model/calibration.js';
import type { Calibration } from '../core/model/calibration-record.js';
import { formatTime } from '../core/model/time.js';
import type { ExportDocument, ExportFormat, ExportPorts, ExportQuery } from '../http/index.js';
import type { Registry } from '../registry/index.js';
import {
  citation,
  csvOf,
  type Described,
  dataPackage,
  type ExportChunk,
  parquetOf,
  tableSchema,
  type Written,
} from '../tables/export/index.js';
import type { Calibrations } from './calibrations.js';
import type { Directory } from './directory.js';
import { exportChunks } from './export-chunks.js';
import { type OlderPages, olderEnd, requireOlder } from './export-older.js';
import { type ChosenStay, type Selection, selectionOf } from './export-selection.js';
import { bedsOfTrial, treatmentsIn } from './export-trials.js';

export interface ExportParts {
  readonly archive: Archive;
  readonly registry: Registry;
  readonly calibrations: Calibrations;
  readonly directory: () => Directory;
  /** Where readings of a time are that are not here one by one any more. */
  readonly older?: OlderPages | undefined;
  /** Program and version. */
  readonly program: string;
}

export class ExportDesk implements ExportPorts {
  readonly #parts: ExportParts;

  constructor(parts: ExportParts) {
    this.#parts = parts;
  }

  /**
   * The pieces are read as they are taken.
   *
   * @throws SandlarderError before the first piece, as `selectionOf`; TOO_FEW_SAMPLES for Parquet of nothing, which
   *   readers refuse; RECEIVER_UNAVAILABLE where the long archive does not answer, also between pieces
   */
  async rows(query: ExportQuery, format: ExportFormat): Promise<AsyncIterable<Uint8Array>> {
    const selection = this.#selection(query);
    const first = selection.stays.find((stay) => this.#isOlder(stay));
    if (first) await requireOlder(this.#parts.older, first);
    const parts = { ...this.#parts, ...treatmentsIn(this.#parts.registry, query.trial) };
    const chunks = exportChunks(parts, selection);
    return format === 'csv' ? csvOf(chunks) : parquetOf(await someOf(chunks), this.#parts.program);
  }

  /** Whether of some of the time not all readings are here one by one. */
  isOlder(query: ExportQuery): boolean {
    return this.#selection(query).stays.some((stay) => this.#isOlder(stay));
  }

  #isOlder(stay: ChosenStay): boolean {
    return stay.from < olderEnd(this.#parts, stay);
  }

  /** @param written size and digest of the rows, where they are known */
  document(query: ExportQuery, document: ExportDocument, format: ExportFormat, written?: Written): string {
    const selection = this.#selection(query);
    if (document === 'schema') return jsonText(tableSchema());
    if (document === 'calibrations') return jsonText({ calibrations: this.#calibrations(selection) });
    const described = this.#described(query, selection);
    return document === 'package'
      ? jsonText(dataPackage(described, format, written))
      : citation(described, written);
  }

  #selection(query: ExportQuery): Selection {
    return selectionOf(this.#parts.directory(), bedsOfTrial(this.#parts.registry), query);
  }

  /** All of the probes that were chosen, whenever they were made: an earlier one may be in force, a later one doubts. */
  #calibrations({ stays }: Selection): unknown[] {
    const { registry } = this.#parts;
    const probes = new Map(stays.map(({ known }) => [`${known.site}/${known.probe.id}`, known]));
    return [...probes.values()]
      .flatMap(({ site, probe }) => registry.calibrations.ofProbe(site, probe.id))
      .sort((one, other) => (orderOf(one) < orderOf(other) ? -1 : 1))
      .map((record) => ({ ...record, from: formatTime(record.from), doneAt: formatTime(record.doneAt) }));
  }

  #described({ from, to, trial }: ExportQuery, { beds, quantities, hasShade }: Selection): Described {
    const sites = new Map(beds.map(({ site }) => [site.id, { id: site.id, name: site.name }]));
    return {
      sites: [...sites.values()],
      beds: beds.map(({ bed: { id, name } }) => ({ id, name })),
      trial: trial ?? null,
      from: from === undefined ? null : formatTime(from),
      to: to === undefined ? null : formatTime(to),
      ...{ hasShade, quantities, program: this.#parts.program },
    };
  }
}

async function someOf(chunks: AsyncGenerator<ExportChunk>): Promise<AsyncIterable<ExportChunk>> {
  const first = await chunks.next();
  if (first.done)
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      'expected readings in the selection, got none to write as Parquet',
    );
  return (async function* () {
    yield first.value;
    yield* chunks;
  })();
}

const orderOf = ({ site, probe, quantity, from, id }: Calibration): string =>
  [site, probe, CALIBRATED_QUANTITIES.indexOf(quantity), formatTime(from), id].join('/');

const jsonText = (document: unknown): string => `${JSON.stringify(document, null, 2)}\n`;
