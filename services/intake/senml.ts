/**
 * SenML packs in JSON, resolved by RFC 8428.
 *
 * A fault of the pack itself (its shape, a base field, a label that must be understood, its version) refuses the
 * whole pack, since nothing in it can be relied on. A fault in one record's own fields stays with that record, so
 * that one bad value does not cost a logger its buffer.
 */
import { z } from 'zod';
import { clip } from './sentence.js';

/** The version of RFC 8428, in force where a pack names none [RFC 8428 4.4]. */
export const SENML_VERSION = 10;

/** Sums below this many seconds are relative to now, from it on they are absolute [RFC 8428 4.5.3]. */
export const RELATIVE_BELOW_s = 2 ** 28;

/** Legal resolved names [RFC 8428 4.5.1]. */
export const NAME_PATTERN = /^[A-Za-z0-9][A-Za-z0-9\-:./_]*$/;

/** Octets in base64 with the URL-safe alphabet, unpadded [RFC 8428 5, RFC 4648 5]. */
const DATA_PATTERN = /^(?:[A-Za-z0-9_-]{4})*(?:[A-Za-z0-9_-]{2,3})?$/;

/** A JSON number: `1e999` is one, and reads as infinity, which the value's and the time's limits refuse later. */
const number = z.custom<number>((value) => typeof value === 'number', 'expected a number');
const text = z.string('expected a string');

const baseFields = {
  bn: text.optional(),
  bt: number.optional(),
  bu: text.optional(),
  bv: number.optional(),
  bs: number.optional(),
  bver: z.int('expected a positive integer').min(1, 'expected a positive integer').optional(),
};

const ownFields = {
  n: text.optional(),
  u: text.optional(),
  v: number.optional(),
  vs: text.optional(),
  vb: z.boolean('expected true or false').optional(),
  vd: text.regex(DATA_PATTERN, 'expected octets in unpadded URL-safe base64').optional(),
  s: number.optional(),
  t: number.optional(),
  ut: number.optional(),
};

const baseSchema = z.object(baseFields, 'expected an object');
const ownSchema = z.object(ownFields);
const recordSchema = z.object({ ...baseFields, ...ownFields });

/** The shape of a pack. Labels that it does not name are dropped [RFC 8428 4.4]. */
export const packSchema = z.array(recordSchema).min(1);

type RawRecord = z.output<typeof recordSchema>;

/** A record with the base fields applied and its time absolute. */
export interface ResolvedRecord {
  /** Position in the pack, from 0. */
  readonly index: number;
  readonly name: string;
  readonly unit: string | undefined;
  /** Event time, ms since the epoch; not finite where the pack said so. */
  readonly time: number;
  /** A number from `v` and `bv`, a string from `vs`, a boolean from `vb`, octets from `vd`. */
  readonly value: number | string | boolean | Uint8Array | undefined;
  readonly sum: number | undefined;
  /** What is wrong with the record's own fields; the rest of the record is then not to be relied on. */
  readonly fault: string | undefined;
}

export type Resolved =
  | { readonly ok: true; readonly records: readonly ResolvedRecord[] }
  | { readonly ok: false; readonly problem: string };

/**
 * Resolves a pack: base fields persist until replaced, names are joined, values, sums and times are added.
 *
 * Records stay in the order of the pack (the RFC's chronological order is the reader's business). A record of
 * base fields alone states no measurement and gives none.
 *
 * @param pack parsed JSON
 * @param arrivedAt what relative times are relative to, ms
 */
export function resolvePack(pack: unknown, arrivedAt: number): Resolved {
  const mandatory = findMandatoryLabel(pack);
  if (mandatory !== undefined)
    return refuse(`expected no label that must be understood and is not, got ${clip(mandatory)}`);
  const parsed = packSchema.safeParse(pack);
  if (parsed.success) return resolveRecords(parsed.data, [], arrivedAt);
  return resolveLeniently(pack, arrivedAt);
}

const refuse = (problem: string): Resolved => ({ ok: false, problem });

/** A label that ends in `_` and is not known here must not be ignored [RFC 8428 4.4]. */
function findMandatoryLabel(pack: unknown): string | undefined {
  if (!Array.isArray(pack)) return undefined;
  for (const record of pack) {
    for (const label in record) if (label.charCodeAt(label.length - 1) === UNDERSCORE) return label;
  }
  return undefined;
}

const UNDERSCORE = 0x5f;

/** Where the shape is not right: tells faults of the pack from faults of single records. */
function resolveLeniently(pack: unknown, arrivedAt: number): Resolved {
  if (!Array.isArray(pack)) return refuse(`expected an array of records, got ${clip(pack)}`);
  if (pack.length === 0) return refuse('expected at least one record, got an empty array');
  const records: RawRecord[] = [];
  const faults: (string | undefined)[] = [];
  for (const [index, record] of pack.entries()) {
    const base = baseSchema.safeParse(record);
    if (!base.success) return refuse(`record ${index + 1}: ${sayIssue(base.error, record)}`);
    const own = ownSchema.safeParse(record);
    faults[index] = own.success ? undefined : sayIssue(own.error, record);
    records.push({ ...base.data, ...own.data });
  }
  return resolveRecords(records, faults, arrivedAt);
}

function sayIssue(error: z.ZodError, record: unknown): string {
  const [issue] = error.issues;
  const label = issue?.path[0];
  if (issue === undefined || label === undefined) return `expected an object, got ${clip(record)}`;
  const value = (record as Record<PropertyKey, unknown>)[label];
  return `${String(label)}: ${issue.message}, got ${clip(value)}`;
}

function resolveRecords(
  records: readonly RawRecord[],
  faults: readonly (string | undefined)[],
  arrivedAt: number,
): Resolved {
  const resolved: ResolvedRecord[] = [];
  let { bn, bt, bu, bv, bs }: RawRecord = { bn: '', bt: 0 };
  for (const [index, record] of records.entries()) {
    if (record.bver !== undefined && record.bver > SENML_VERSION)
      return refuse(`bver: expected a version up to ${SENML_VERSION}, got ${record.bver}`);
    bn = record.bn ?? bn;
    bt = record.bt ?? bt;
    bu = record.bu ?? bu;
    bv = record.bv ?? bv;
    bs = record.bs ?? bs;
    const fault = faults[index] ?? findValueFault(record);
    if (fault === undefined && !statesSomething(record)) continue;
    resolved.push({
      index,
      name: (bn ?? '') + (record.n ?? ''),
      unit: record.u ?? bu,
      time: eventTime_ms((bt ?? 0) + (record.t ?? 0), arrivedAt),
      value: resolveValue(record, bv),
      sum: add(bs, record.s),
      fault,
    });
  }
  if (resolved.length === 0) return refuse('expected a record with more than base fields, got none');
  return { ok: true, records: resolved };
}

/** At most one value field may stand in a record [RFC 8428 4.2]. */
function findValueFault(record: RawRecord): string | undefined {
  const { v, vs, vb, vd } = record;
  const fields = +(v !== undefined) + +(vs !== undefined) + +(vb !== undefined) + +(vd !== undefined);
  return fields > 1 ? `expected one of v, vs, vb and vd, got ${fields} of them` : undefined;
}

function statesSomething({ n, u, v, vs, vb, vd, s, t, ut }: RawRecord): boolean {
  return (v ?? vs ?? vb ?? vd ?? n ?? u ?? s ?? t ?? ut) !== undefined;
}

function resolveValue({ v, vs, vb, vd }: RawRecord, bv: number | undefined): ResolvedRecord['value'] {
  if (v !== undefined) return bv === undefined ? v : bv + v;
  if (vs !== undefined) return vs;
  if (vb !== undefined) return vb;
  return vd !== undefined ? Buffer.from(vd, 'base64url') : bv;
}

/** A missing side counts as zero where the other is there [RFC 8428 4.5.4]. */
function add(base: number | undefined, own: number | undefined): number | undefined {
  return base === undefined ? own : base + (own ?? 0);
}

/** Seconds to whole milliseconds: a double holds today's time to 0.2 µs, so that rounding is exact. */
function eventTime_ms(sum_s: number, arrivedAt: number): number {
  const time = Math.round(sum_s * 1000);
  return sum_s < RELATIVE_BELOW_s ? arrivedAt + time : time;
}
