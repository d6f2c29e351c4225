/** What the HTTP edge needs for what is written down at a bed: fillings, inspections, stock, pictures. */
import type {
  Advice,
  DepthJudgement,
  ExpectedSwing,
  LookDue,
  OutlookTask,
  SeasonLoss,
  StockTotals,
} from '../core/keeping/index.js';
import type { Alarm } from '../core/model/alarm.js';
import type { BuriedProbe, Filling, FillingBody } from '../core/model/filling.js';
import type { Inspection, InspectionBody } from '../core/model/inspection.js';
import type { Bed } from '../core/model/site.js';
import type { StockBody, StockEntry } from '../core/model/stock.js';

export interface BuriedView extends BuriedProbe {
  readonly expected: ExpectedSwing;
  /** What it should show, in a sentence. */
  readonly text: string;
}

export interface FillingView {
  readonly filling: Filling;
  /** Whether no other has taken its place. */
  readonly inForce: boolean;
}

export interface FilledView extends FillingView {
  /** Whether it was not there before. */
  readonly isNew: boolean;
  readonly probes: readonly BuriedView[];
  /** What whoever wrote it down should know. */
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
}

export interface DepthView extends BuriedProbe {
  readonly judgement: DepthJudgement;
  /** The readings that it is judged by, ms: from the hour after it came to lie so. */
  readonly judgedFrom: number;
  readonly judgedTo: number;
  /** In plain words. */
  readonly text: string;
}

export interface InspectedView {
  readonly inspection: Inspection;
  /** Whether it was not there before. */
  readonly isNew: boolean;
  readonly advice: readonly Advice[];
  readonly cautions: readonly string[];
  /** Those of which it speaks, with what it says of them, as they stand now. */
  readonly alarms: readonly Alarm[];
  /** Ids of those that were open before it was written down and are over now. */
  readonly ended: readonly string[];
  /** False where it comes so late that the bed is judged again from there in a while. */
  readonly judged: boolean;
  readonly notes: readonly string[];
  /** Roots left by the ledger; null where the bed's stock is not kept. */
  readonly left: number | null;
}

export interface StockEntryView {
  readonly entry: StockEntry;
  /** Id of the filling or inspection that it follows from; null where it was written down by itself. */
  readonly origin: string | null;
}

export interface StockedView {
  readonly entries: readonly (StockEntryView & { readonly isNew: boolean })[];
  readonly left: number | null;
}

export interface StockQuery {
  /** Of all who eat from the bed. */
  readonly eating?: OutlookTask['eating'];
  /** Over so many months the rest is to be sold. */
  readonly months?: number | undefined;
}

export interface Likely {
  readonly low: number | null;
  readonly likely: number | null;
  readonly high: number | null;
}

export interface StockView {
  readonly bed: string;
  /** Since when totals and losses count, ms: the filling; null where nobody said when that was. */
  readonly since: number | null;
  readonly left: number | null;
  /** By the mean of what was weighed when it went in, kg; null where nothing was. */
  readonly leftMass_kg: number | null;
  readonly entries: readonly StockEntryView[];
  readonly totals: StockTotals;
  /** Over the season, of all roots, by what was counted at looks. */
  readonly losses: readonly SeasonLoss[];
  /** Weeks for which there is enough; null where it was not asked for. */
  readonly weeksOfFood: Likely | null;
  /** Roots that can be sold at the end of each month; null where it was not asked for. */
  readonly rootsPerMonth: Likely | null;
  /** What the last two rest on. */
  readonly notes: readonly string[];
}

export interface LookView extends LookDue {
  readonly bed: Bed;
  readonly site: string;
  readonly lookedAt: number | null;
}

export interface RecordsBody {
  readonly fillings: readonly FillingBody[];
  readonly inspections: readonly InspectionBody[];
  readonly stock: readonly StockBody[];
}

export interface RecordsView {
  readonly fillings: readonly FilledView[];
  readonly inspections: readonly InspectedView[];
  readonly stock: StockedView['entries'];
  readonly left: number | null;
}

export interface PhotoView {
  readonly name: string;
  readonly mediaType: string;
  readonly size_bytes: number;
}

export interface LedgerPorts {
  /** All or none of it. Throws NOT_FOUND, BAD_REQUEST, and CONFLICT where an id is there with other content. */
  records(bed: string, body: RecordsBody): RecordsView;
  fillings(bed: string): readonly FillingView[];
  /** Whether each buried probe lies as deep as was said, by the readings of its first two days. */
  depths(bed: string, filling: string): readonly DepthView[];
  /** The same of each probe that lies in the bed now, however it came to. */
  depthsNow(bed: string): readonly DepthView[];
  inspections(
    bed: string,
    query: { readonly limit: number; readonly after?: string | undefined },
  ): { readonly inspections: readonly Inspection[]; readonly more: boolean };
  stock(bed: string, query: StockQuery): StockView;
  looks(): readonly LookView[];
  /** @returns whether it was not there before. Throws NOT_FOUND, BAD_REQUEST, CONFLICT, LIMIT_EXCEEDED */
  addPhoto(inspection: string, name: string, bytes: Buffer): { view: PhotoView; isNew: boolean };
  photos(inspection: string): readonly PhotoView[];
  photo(inspection: string, name: string): PhotoView & { readonly bytes: Buffer };
}
