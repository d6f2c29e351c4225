/** `sandlarder fill`: write down what went into a bed and where its probes are buried; check how deep they lie. */
import { SandlarderError } from '../../core/errors.js';
import type { DepthAnswer } from '../../http/index.js';
import { readNumber, readWhole } from '../numbers.js';
import { ServiceClient } from '../service-client.js';
import { bedOrFile, given, headOf, type LedgerFlags, required, SURROUNDINGS } from './flags.js';
import { depthLines, filledLines } from './lines.js';
import type { BedRecord } from './record.js';
import { sendFile, sendOrKeep } from './send.js';

export interface FillFlags extends LedgerFlags {
  readonly course?: readonly string[];
  readonly mass?: string;
  readonly cultivar?: string;
  readonly field?: string;
  readonly lot?: string;
  readonly probe?: readonly string[];
  readonly supersedes?: string;
  readonly note?: string;
  /** The filling whose probes are checked; `true` for those that lie in the bed now. */
  readonly check?: string | boolean;
}

export async function fill(bed: string | undefined, flags: FillFlags): Promise<void> {
  bedOrFile(bed, flags);
  if (flags.fromFile !== undefined) return sendFile(flags, SURROUNDINGS);
  if (flags.check !== undefined) return check(bed as string, flags);
  const record = fillRecord(bed as string, flags);
  const answer = await sendOrKeep(record, flags, SURROUNDINGS);
  const [filled] = answer?.fillings ?? [];
  if (!filled) return;
  const { say } = SURROUNDINGS;
  if (flags.json) say(JSON.stringify(filled));
  else for (const line of filledLines(filled)) say(line);
}

/** @throws SandlarderError WRONG_USAGE */
export function fillRecord(bed: string, flags: FillFlags): BedRecord {
  const { cultivar, field, lot, supersedes, note, probe = [] } = flags;
  const courses = required('--course', flags.course).map(courseOf);
  const mass_kg = flags.mass === undefined ? undefined : readNumber('--mass', flags.mass, 0.001, 1_000_000);
  const details = given({ mass_kg, cultivar, field, lot, supersedes, note });
  return {
    record: 'filling',
    bed,
    body: { ...headOf(flags), courses, ...details, probes: probe.map(buriedOf) },
  };
}

/** `120`, or `120:33` with kg. */
function courseOf(text: string): object {
  const [roots = '', mass, ...more] = text.split(':');
  if (more.length > 0)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--course: expected roots or roots:kg, such as 120 or 120:33, got ${JSON.stringify(text)}`,
    );
  return given({
    roots: readWhole('--course', roots, 1, 1_000_000),
    mass_kg: mass === undefined ? undefined : readNumber('--course', mass, 0.001, 1_000_000),
  });
}

/** `p01:75,40,30`. */
function buriedOf(text: string): object {
  const [probe, place = ''] = text.split(':');
  const numbers = place.split(',');
  if (numbers.length !== 3 || text.split(':').length !== 2)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--probe: expected its id with x, y and depth in cm, such as p01:75,40,30, got ${JSON.stringify(text)}`,
    );
  const [x, y, depth] = numbers.map((number) => readNumber('--probe', number, -10_000, 10_000));
  return { probe, x, y, depth };
}

async function check(bed: string, flags: FillFlags): Promise<void> {
  const { check: asked, json } = flags;
  const client = new ServiceClient(flags);
  const path = `/api/beds/${encodeURIComponent(bed)}`;
  const probes = await client.get<DepthAnswer[]>(
    typeof asked === 'string' ? `${path}/fillings/${encodeURIComponent(asked)}/probes` : `${path}/depths`,
  );
  const { say } = SURROUNDINGS;
  if (json) return say(JSON.stringify(probes));
  for (const line of depthLines(probes)) say(line);
}
