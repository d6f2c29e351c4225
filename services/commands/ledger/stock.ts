/** `sandlarder stock`: what went in and came out of a bed, and what is left. */
import { SandlarderError } from '../../core/errors.js';
import type { StockAnswer } from '../../http/index.js';
import { readNumber, readWhole } from '../numbers.js';
import { ServiceClient } from '../service-client.js';
import { bedOrFile, given, headOf, type LedgerFlags, required, SURROUNDINGS } from './flags.js';
import { stockLines } from './lines.js';
import type { BedRecord } from './record.js';
import { sendFile, sendOrKeep } from './send.js';

export interface StockFlags extends LedgerFlags {
  readonly reason?: string;
  readonly mass?: string;
  readonly persons?: string;
  readonly rootsPerWeek?: string;
  readonly kgPerWeek?: string;
  readonly months?: string;
}

const KINDS = ['in', 'out', 'counter'] as const;
const USUAL: Readonly<Record<string, string>> = { in: 'added' };

/**
 * @param what `show`, `in`, `out` or `counter`
 * @throws SandlarderError WRONG_USAGE, and what the service refuses with
 */
export async function stock(
  bed: string | undefined,
  what: string,
  rest: readonly string[],
  flags: StockFlags,
): Promise<void> {
  bedOrFile(bed, flags);
  if (flags.fromFile !== undefined) return sendFile(flags, SURROUNDINGS);
  if (what === 'show') return show(bed as string, rest, flags);
  const record = stockRecord(bed as string, what, rest, flags);
  const { say } = SURROUNDINGS;
  const answer = await sendOrKeep(record, flags, SURROUNDINGS);
  if (!answer) return;
  const [entry] = answer.stock;
  if (flags.json) say(JSON.stringify({ ...entry, left: answer.left }));
  else
    say(`Written down: ${what} ${entry?.roots}, ${entry?.reason} (${entry?.id}). ${answer.left} roots left.`);
}

/** @throws SandlarderError WRONG_USAGE */
export function stockRecord(
  bed: string,
  what: string,
  rest: readonly string[],
  flags: StockFlags,
): BedRecord {
  const kind = KINDS.find((one) => one === what);
  if (!kind)
    throw new SandlarderError(
      'WRONG_USAGE',
      `expected show, in, out or counter after the bed, got "${what}"`,
    );
  const of = kind === 'counter' ? required('counter: the id of an entry', rest[0]) : undefined;
  const counted = kind === 'counter' ? rest.slice(1) : rest;
  const roots = readWhole('roots', required(`${kind}: how many roots`, counted[0]), 1, 1_000_000);
  requireNoMore(counted.slice(1));
  const mass_kg = flags.mass === undefined ? undefined : readNumber('--mass', flags.mass, 0.001, 1_000_000);
  const reason = required('--reason', flags.reason ?? USUAL[kind]);
  return { record: 'stock', bed, body: given({ ...headOf(flags), kind, reason, roots, mass_kg, of }) };
}

function requireNoMore(rest: readonly string[]): void {
  if (rest.length > 0)
    throw new SandlarderError('WRONG_USAGE', `expected nothing more after the roots, got "${rest[0]}"`);
}

async function show(bed: string, rest: readonly string[], flags: StockFlags): Promise<void> {
  requireNoMore(rest);
  const query = new URLSearchParams(
    given({
      persons: flags.persons,
      rootsPerPersonWeek: flags.rootsPerWeek,
      kgPerPersonWeek: flags.kgPerWeek,
      months: flags.months,
    }) as Record<string, string>,
  );
  const { say } = SURROUNDINGS;
  const path = `/api/beds/${encodeURIComponent(bed)}/stock?${query}`;
  const answer = await new ServiceClient(flags).get<StockAnswer>(path);
  if (flags.json) return say(JSON.stringify(answer));
  for (const line of stockLines(answer)) say(line);
}
