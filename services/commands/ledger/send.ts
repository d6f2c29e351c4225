/** Sends records to the service, or keeps them in a file while it is out of reach. */
import { basename } from 'node:path';
import { SandlarderError } from '../../core/errors.js';
import { photoType } from '../../core/model/photo.js';
import { bytesOf } from '../../files.js';
import type { RecordsAnswer } from '../../http/index.js';
import { ServiceClient } from '../service-client.js';
import type { LedgerFlags, Surroundings } from './flags.js';
import { type BedRecord, keepRecord, readRecords, requireRecord } from './record.js';

const AWAY = ['RECEIVER_UNAVAILABLE', 'STORE_UNAVAILABLE'];

const bedPath = (bed: string, part: string): string => `/api/beds/${encodeURIComponent(bed)}/${part}`;

const LISTS = { filling: 'fillings', inspection: 'inspections', stock: 'stock' } as const;

/** All of one bed in one go. */
function sendAll(client: ServiceClient, bed: string, records: readonly BedRecord[]): Promise<RecordsAnswer> {
  const of = (kind: BedRecord['record']): unknown[] =>
    records.filter(({ record }) => record === kind).map(({ body }) => body);
  return client.post(bedPath(bed, 'records'), {
    [LISTS.filling]: of('filling'),
    [LISTS.inspection]: of('inspection'),
    [LISTS.stock]: of('stock'),
  });
}

/**
 * Sends one record.
 *
 * @returns undefined where it was kept in the file that `--keep` names, as the service is out of reach
 */
export async function sendOrKeep(
  record: BedRecord,
  flags: LedgerFlags,
  { say, tell }: Surroundings,
): Promise<RecordsAnswer | undefined> {
  const { keep, json } = flags;
  const checked = requireRecord(record);
  const client = new ServiceClient(flags);
  try {
    const answer = await sendAll(client, checked.bed, [checked]);
    await sendPhotos(client, checked, tell);
    return answer;
  } catch (error) {
    if (!(keep !== undefined && error instanceof SandlarderError && AWAY.includes(error.code))) throw error;
    keepRecord(keep, checked);
    say(
      json
        ? JSON.stringify({ kept: keep, ...checked })
        : `The service is out of reach: kept in ${keep}. Send it later with --from-file ${keep}`,
    );
    return undefined;
  }
}

/** A picture that cannot be sent does not undo the record it belongs to. */
async function sendPhotos(
  client: ServiceClient,
  { body, photoFiles = [] }: BedRecord,
  tell: (line: string) => void,
): Promise<void> {
  for (const file of photoFiles)
    try {
      const bytes = bytesOf(file);
      const type = photoType(bytes);
      if (!type) throw new SandlarderError('WRONG_USAGE', 'expected JPEG, PNG or WebP by its first bytes');
      const path = `/api/inspections/${encodeURIComponent(String(body.id))}/photos/`;
      await client.put(`${path}${encodeURIComponent(basename(file))}`, bytes, type);
    } catch (error) {
      tell(`note: picture ${file} was not sent: ${(error as Error).message}`);
    }
}

/** What became of the records of a bed. */
export interface Merged {
  readonly bed: string;
  readonly added: number;
  readonly there: number;
  readonly left: number | null;
  /** Why none of them was taken in; absent where all were. */
  readonly error?: string;
}

/**
 * Sends the records of a file: all or none of each bed. They stay in the file, and may be sent again.
 *
 * @throws SandlarderError of the first bed that was refused, after all were sent
 */
export async function sendFile(flags: LedgerFlags, { say, tell }: Surroundings): Promise<void> {
  const { fromFile = '', json } = flags;
  const records = readRecords(fromFile);
  if (records.length === 0) tell(`note: ${fromFile} holds no records`);
  const client = new ServiceClient(flags);
  const merged: Merged[] = [];
  let refused: SandlarderError | undefined;
  for (const bed of new Set(records.map((record) => record.bed))) {
    const ofBed = records.filter((record) => record.bed === bed);
    try {
      const { fillings, inspections, stock, left } = await sendAll(client, bed, ofBed);
      const all = [...fillings, ...inspections, ...stock];
      const added = all.filter(({ isNew }) => isNew).length;
      merged.push({ bed, added, there: all.length - added, left });
      for (const record of ofBed) await sendPhotos(client, record, tell);
    } catch (error) {
      if (!(error instanceof SandlarderError)) throw error;
      if (error.code === 'RECEIVER_UNAVAILABLE' || error.code === 'UNAUTHORISED') throw error;
      refused ??= new SandlarderError(error.code, `${bed}: nothing was taken in: ${error.message}`);
      merged.push({ bed, added: 0, there: 0, left: null, error: error.message });
    }
  }
  if (json) say(JSON.stringify(merged));
  else for (const one of merged) if (one.error === undefined) say(mergedLine(one));
  if (refused) throw refused;
}

const mergedLine = ({ bed, added, there, left }: Merged): string =>
  `${bed}: ${added} new, ${there} there already${left === null ? '' : `; ${left} roots left`}`;
