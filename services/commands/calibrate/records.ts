/** `sandlarder calibrate pairs | list | due | certificate | beside | salts`: calibrations that are kept. */
import { SandlarderError } from '../../core/errors.js';
import { textOf, writeFile } from '../../files.js';
import type {
  CalibrationAnswer,
  DueAnswer,
  FieldCheckAnswer,
  PairsAnswer,
  SaltAnswer,
} from '../../http/index.js';
import { readNumber } from '../numbers.js';
import { onOutput as say } from '../say.js';
import { ServiceClient } from '../service-client.js';
import type { ServiceFlags } from './bench.js';
import { resolutionOf } from './finish.js';
import { leftOutOf } from './left-out.js';
import { UNITS, withDigits } from './lines.js';
import { calibrationLines, recordTable } from './record-lines.js';
import { type ReferenceFlags, referenceOf } from './reference.js';

export interface PairsFlags extends ServiceFlags, ReferenceFlags {
  readonly site: string;
  readonly by: string;
  readonly done: string;
  readonly from?: string;
  readonly probe?: string;
  readonly quantity?: string;
  readonly uncertainty?: string;
  readonly form?: string;
  readonly resolution?: string;
  readonly leaveOut?: readonly string[];
  readonly supersedes?: string;
  readonly dryRun?: boolean;
}

const given = (values: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined));

export async function pairs(file: string, flags: PairsFlags): Promise<void> {
  const { site, by, done, from, probe, quantity, form, supersedes, dryRun = false } = flags;
  const uncertainty =
    flags.uncertainty === undefined ? undefined : readNumber('--uncertainty', flags.uncertainty, 0, 100);
  const leaveOut = leftOutOf(flags.leaveOut ?? [], 'LINE').map(({ number, ...rest }) => ({
    ...rest,
    line: number,
  }));
  const fit = given({ form, resolution: resolutionOf(flags.resolution) });
  const body = {
    ...given({ site, by, doneAt: done, from, probe, quantity, uncertainty, supersedes, dryRun }),
    ...{ reference: referenceOf(flags), fit, leaveOut, csv: textOf(file) },
  };
  const answer = await new ServiceClient(flags).post<PairsAnswer>('/api/calibrations/pairs', body);
  if (flags.json) say(JSON.stringify(answer));
  if (answer.badLines.length > 0) {
    const [first] = answer.badLines;
    if (!flags.json) for (const { message } of answer.badLines.slice(1)) say(`${file}, ${message}`);
    throw new SandlarderError(
      'WRONG_USAGE',
      `${file}, ${first?.message}; nothing was kept, ${answer.badLines.length} bad ${answer.badLines.length === 1 ? 'line' : 'lines'}`,
    );
  }
  if (flags.json) return;
  for (const record of answer.calibrations)
    for (const line of calibrationLines(record, answer.kept)) say(line);
  if (!answer.kept) say('Nothing was kept: a dry run.');
}

export interface ListFlags extends ServiceFlags {
  readonly site?: string;
  readonly probe?: string;
  readonly quantity?: string;
  readonly inForce?: boolean;
  readonly long?: boolean;
}

export async function list(flags: ListFlags): Promise<void> {
  const { site, probe, quantity, inForce } = flags;
  const query = new URLSearchParams(given({ site, probe, quantity, inForce }) as Record<string, string>);
  const records = await new ServiceClient(flags).get<CalibrationAnswer[]>(`/api/calibrations?${query}`);
  if (flags.json) return say(JSON.stringify(records));
  if (records.length === 0) return say('No calibrations.');
  const lines = flags.long
    ? records.flatMap((record) => calibrationLines(record, true))
    : recordTable(records);
  for (const line of lines) say(line);
}

export async function due(flags: ServiceFlags): Promise<void> {
  const all = await new ServiceClient(flags).get<DueAnswer[]>('/api/calibrations/due');
  if (flags.json) return say(JSON.stringify(all));
  for (const { site, probe, quantity, dueAt, isDue } of all)
    say(
      `${site} ${probe} ${quantity}: ${dueAt === null ? 'never calibrated' : `${isDue ? 'was due' : 'due'} ${dueAt.slice(0, 10)}`}`,
    );
  if (all.length === 0) say('No probes.');
}

export interface CertificateFlags extends ServiceFlags {
  readonly out?: string;
}

export async function certificate(id: string, flags: CertificateFlags): Promise<void> {
  const { out = `${id}.pdf` } = flags;
  const ending = /\.(pdf|html)$/.exec(out)?.[1];
  if (ending === undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--out: expected a file ending in .pdf or .html, got ${JSON.stringify(out)}`,
    );
  const path = `/api/calibrations/${encodeURIComponent(id)}/certificate${ending === 'pdf' ? '.pdf' : ''}`;
  const bytes = await new ServiceClient(flags).file(path);
  writeFile(out, bytes, { flag: '--out' });
  say(flags.json ? JSON.stringify({ file: out, bytes: bytes.length }) : `${out}: ${bytes.length} bytes`);
}

export interface BesideFlags extends ServiceFlags {
  readonly site: string;
  readonly quantity: string;
  readonly from: string;
  readonly to: string;
  readonly by: string;
  readonly bound?: string;
  readonly placeUncertainty?: string;
}

export async function beside(probe: string, reference: string, flags: BesideFlags): Promise<void> {
  const { site, quantity, from, to, by } = flags;
  const number = (flag: string, text: string | undefined): number | undefined =>
    text === undefined ? undefined : readNumber(flag, text, 0, 100);
  const body = given({
    ...{ site, probe, reference, quantity, from, to, by },
    bound: number('--bound', flags.bound),
    placeUncertainty: number('--place-uncertainty', flags.placeUncertainty),
  });
  const check = await new ServiceClient(flags).post<FieldCheckAnswer>('/api/field-checks', body);
  if (flags.json) return say(JSON.stringify(check));
  say(`${probe} beside ${reference}, ${check.pairs} readings: ${check.verdict}. ${check.sentence}`);
}

export async function salts(flags: ServiceFlags): Promise<void> {
  const all = await new ServiceClient(flags).get<SaltAnswer[]>('/api/bench/salts');
  if (flags.json) return say(JSON.stringify(all));
  for (const { id, name, formula, at25_C } of all) {
    const expanded = 2 * at25_C.standardUncertainty_RH;
    const humidity = `${withDigits(at25_C.humidity_RH, expanded)} ${UNITS.humidity} at 25 °C`;
    say(`${id}: ${name}, ${formula}, ${humidity} (k = 2: ${withDigits(expanded, expanded)})`);
  }
  for (const caution of new Set(all.flatMap(({ cautions }) => cautions))) say(`Caution: ${caution}`);
}
