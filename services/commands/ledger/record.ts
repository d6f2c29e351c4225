/**
 * Records of beds as lines of JSON: written while the service is out of reach, sent later. Each has its id from the
 * beginning, so that one that is sent twice is kept once.
 */
import { isAbsolute } from 'node:path';
import { z } from 'zod';
import { SandlarderError } from '../../core/errors.js';
import { fillingBodySchema } from '../../core/model/filling.js';
import { idSchema } from '../../core/model/id.js';
import { inspectionBodySchema } from '../../core/model/inspection.js';
import { describeIssue } from '../../core/model/problem.js';
import { stockBodySchema } from '../../core/model/stock.js';
import { appendFile, textOf } from '../../files.js';

export const RECORD_KINDS = ['filling', 'inspection', 'stock'] as const;
export type RecordKind = (typeof RECORD_KINDS)[number];

export interface BedRecord {
  readonly record: RecordKind;
  readonly bed: string;
  /** As it is sent: times as text. */
  readonly body: Readonly<Record<string, unknown>>;
  /** Files of pictures, to be sent after it. */
  readonly photoFiles?: readonly string[] | undefined;
}

const BODIES: Readonly<Record<RecordKind, z.ZodType>> = {
  filling: fillingBodySchema,
  inspection: inspectionBodySchema,
  stock: stockBodySchema,
};

const lineSchema = z.strictObject({
  record: z.enum(RECORD_KINDS),
  bed: idSchema,
  body: z.record(z.string(), z.unknown()),
  photoFiles: z.array(z.string().refine(isAbsolute, 'expected a whole path')).max(20).optional(),
});

/** Bytes of a file at the most: some ten thousand records. */
const FILE_bytes = 16 * 1024 * 1024;

const badRecord = (where: string, what: string): SandlarderError =>
  new SandlarderError('WRONG_USAGE', `${where}${what}`);

/**
 * Refuses what the service would refuse for its form.
 *
 * @param where begins the message, such as the place in a file
 */
export function requireRecord(line: unknown, where = ''): BedRecord {
  const parsed = lineSchema.safeParse(line, { reportInput: true });
  if (!parsed.success) throw badRecord(where, parsed.error.issues.map(describeIssue)[0] ?? '');
  const body = BODIES[parsed.data.record].safeParse(parsed.data.body, { reportInput: true });
  if (!body.success) throw badRecord(where, body.error.issues.map(describeIssue)[0] ?? '');
  if (parsed.data.body.id === undefined)
    throw badRecord(where, 'id: expected a UUID, so that it can be sent again, got nothing');
  return parsed.data;
}

/** Appends a record to a file that `--from-file` sends later. */
export function keepRecord(file: string, record: BedRecord): void {
  appendFile(file, `${JSON.stringify(record)}\n`, { flag: '--keep' });
}

/** @throws SandlarderError WRONG_USAGE that names the file and the line */
export function readRecords(file: string): BedRecord[] {
  const text = textOf(file, { flag: '--from-file', most_bytes: FILE_bytes });
  return text.split('\n').flatMap((line, index) => {
    const where = `${file}, line ${index + 1}: `;
    return line.trim() === '' ? [] : [requireRecord(asJson(line, where), where)];
  });
}

function asJson(line: string, where: string): unknown {
  try {
    return JSON.parse(line);
  } catch (error) {
    throw badRecord(where, `expected JSON: ${(error as Error).message}`);
  }
}
