/** Seasons of beds: what is to come, and the report of what was, as figures, as a page and as a file. */
import { SandlarderError } from '../core/errors.js';
import {
  BEDS_MOST,
  type BedSeason,
  type SeasonDocument,
  SHOWN,
  seasonFigures,
  seasonReport,
  seasonReportPage,
} from '../core/keeping/index.js';
import type { OutlookQuery, OutlookView, SeasonPorts, SeasonView } from '../http/index.js';
import { dailyMeans } from './bed-warmth.js';
import type { KnownBed } from './directory.js';
import { knownBed, requireCome } from './known-bed.js';
import { labelled } from './labelled.js';
import { lossLooks } from './loss-looks.js';
import { outlookView } from './outlook-desk.js';
import { printedFile } from './printed-pdf.js';
import { seasonBegin } from './season-start.js';
import type { Station } from './station.js';
import { StockDesk } from './stock-desk.js';

/** Alarms of one bed in a report. */
const MOST_ALARMS = 1000;

interface Gathered {
  readonly beds: readonly KnownBed[];
  readonly seasons: readonly BedSeason[];
  /** ms. */
  readonly to: number;
}

export class SeasonDesk implements SeasonPorts {
  readonly #station: Station;
  /** Name and version of the program. */
  readonly #program: string;
  /** Wall clock, ms. */
  readonly #now: () => number;

  constructor(station: Station, program: string, now: () => number) {
    this.#station = station;
    this.#program = program;
    this.#now = now;
  }

  outlook(bed: string, query: OutlookQuery): OutlookView {
    return outlookView(this.#station, bed, query, this.#now());
  }

  season(ids: readonly string[], asked: number | undefined): SeasonView {
    const gathered = this.#gathered(ids, asked);
    const { seasons, to } = gathered;
    return {
      ...{ document: this.#document(gathered), to },
      beds: seasons.map((season, index) => ({
        bed: ids[index] as string,
        figures: seasonFigures(season, to),
      })),
    };
  }

  #gathered(ids: readonly string[], asked: number | undefined): Gathered {
    const to = asked ?? this.#now();
    requireCome(to, this.#now());
    requireDistinct(ids);
    const beds = ids.map((id) => knownBed(this.#station, id));
    return { beds, seasons: beds.map((known) => this.#seasonOf(known, to)), to };
  }

  async page(ids: readonly string[], to: number | undefined): Promise<string> {
    return seasonReportPage((await this.#printed(ids, to)).document);
  }

  async pdf(ids: readonly string[], to: number | undefined): Promise<Uint8Array> {
    return (await this.#printed(ids, to)).file;
  }

  /** Of one bed a single page: of long lists the last rows, as many as it holds. */
  async #printed(
    ids: readonly string[],
    to: number | undefined,
  ): Promise<{ document: SeasonDocument; file: Uint8Array }> {
    const gathered = this.#gathered(ids, to);
    for (const shown of SHOWN) {
      const document = this.#document(gathered, shown);
      const { title, issued, program } = document;
      const foot = `${title}. Issued ${issued} by ${program}.`;
      const { file, pages } = await printedFile({ ...document, warnings: [], fileTitle: title, foot });
      if (pages === 1 || ids.length > 1 || shown === SHOWN.at(-1)) return { document, file };
    }
    throw new Error('no list of rows to be shown');
  }

  /** Of beds of several sites the first one's clock counts, and all are named. */
  #document({ beds, seasons, to }: Gathered, shown?: (typeof SHOWN)[number]): SeasonDocument {
    const sites = [...new Map(beds.map(({ site }) => [site.id, site])).values()];
    const about = {
      siteName: sites.map(({ name }) => name).join(', '),
      groupName: null,
      timeZone: sites[0]?.timezone ?? null,
      ...{ to, issuedAt: this.#now(), program: this.#program },
    };
    return seasonReport(seasons, about, shown);
  }

  #seasonOf(known: KnownBed, to: number): BedSeason {
    const { registry } = this.#station;
    const { id, name } = known.bed;
    const begin = seasonBegin(this.#station, known, to);
    if (!begin)
      throw new SandlarderError(
        'TOO_FEW_SAMPLES',
        `season of bed "${id}": expected a filling by then, as described or as written down, got none`,
      );
    const { filledAt, filling, isDescribed } = begin;
    const ledger = new StockDesk(this.#station, this.#now).ledger(id);
    const { rows } = registry.alarms.list({ bed: id, from: filledAt, to: to + 1, limit: MOST_ALARMS });
    return {
      ...{ name, filledAt, ledger },
      ...{ cultivar: filling?.cultivar ?? null, field: filling?.field ?? null, lot: filling?.lot ?? null },
      described: isDescribed ? describedRoots(known) : null,
      inspections: registry.inspections.between(id, filledAt, to + 1),
      looks: lossLooks(this.#station, ledger, filledAt),
      alarms: rows.map((row) => labelled(this.#station, row, this.#now())).reverse(),
      days: dailyMeans(this.#station, known, filledAt, to),
    };
  }
}

function describedRoots({ bed: { roots } }: KnownBed): BedSeason['described'] {
  if (roots?.count === undefined && roots?.mass_kg === undefined) return null;
  return { roots: roots.count ?? null, mass_kg: roots.mass_kg ?? null };
}

function requireDistinct(ids: readonly string[]): void {
  if (!(ids.length >= 1 && ids.length <= BEDS_MOST))
    throw new SandlarderError('BAD_REQUEST', `beds: expected 1 to ${BEDS_MOST}, got ${ids.length}`);
  const twice = ids.find((id, index) => ids.indexOf(id) !== index);
  if (twice !== undefined)
    throw new SandlarderError('BAD_REQUEST', `beds: expected each once, got "${twice}" twice`);
}
