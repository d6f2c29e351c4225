/** What the commands of fillings, looks and stock share. */
import { randomUUID } from 'node:crypto';
import { SandlarderError } from '../../core/errors.js';
import { formatTime } from '../../core/model/time.js';
import { onOutput, type Say } from '../say.js';
import type { ServiceFlags } from '../service-client.js';

export interface LedgerFlags extends ServiceFlags {
  readonly json?: boolean;
  readonly by?: string;
  readonly at?: string;
  readonly keep?: string;
  readonly fromFile?: string;
}

/** What a command needs of where it runs. */
export interface Surroundings {
  readonly say: Say;
  /** For whoever sits at a terminal, beside the result. */
  readonly tell: Say;
}

export const SURROUNDINGS: Surroundings = {
  say: onOutput,
  tell: (line) => void process.stderr.write(`${line}\n`),
};

/** @throws SandlarderError WRONG_USAGE for a flag that is missing */
export function required<Value>(name: string, value: Value | undefined): Value {
  if (value === undefined || value === '')
    throw new SandlarderError('WRONG_USAGE', `${name}: expected a value, got nothing`);
  return value;
}

/** Only what was given: a key without a value is absent. */
export const given = (values: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined));

/** What every record begins with. */
export const headOf = ({ by, at }: LedgerFlags): { id: string; at: string; by: string } => ({
  ...{
    id: randomUUID(),
    at: at ?? formatTime(Math.floor(Date.now() / 1000) * 1000),
    by: required('--by', by),
  },
});

/** @throws SandlarderError WRONG_USAGE where a bed is missing, or given beside `--from-file` */
export function bedOrFile(bed: string | undefined, { fromFile, keep }: LedgerFlags): void {
  if (fromFile === undefined) required('<bed>', bed);
  else if (bed !== undefined || keep !== undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--from-file: expected neither a bed nor --keep beside it, as the records of the file say their beds, got ${bed ?? keep}`,
    );
}

const SHOWN_days = /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d)/;

/** `2026-05-04 08:00 UTC`. */
export const timeInShort = (text: string): string =>
  text.replace(SHOWN_days, '$1 $2').replace(/:\d\d(\.\d+)?Z$/, ' UTC');
