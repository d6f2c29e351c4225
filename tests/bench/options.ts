/** Flags of the bench, checked. */
import { parseArgs } from 'node:util';
import { CASES, type Case } from './cases.js';

export interface Options {
  readonly cases: readonly Case[];
  readonly rounds: number;
  readonly messages: number | undefined;
  readonly minutes: number | undefined;
  readonly probes: number | undefined;
  readonly json: boolean;
}

export class WrongUsage extends Error {}

const USAGE = `npm run bench -- [--case ${CASES.map(({ name }) => name).join('|')}] [--rounds N] [--messages N] [--minutes N] [--probes N] [--json]`;

const MOST_ROUNDS = 100;

/** Bounds the event time that a load reaches, so that it stays in the past: a million messages are 137 days. */
const MOST_MESSAGES = 1_000_000;

/** A day. */
const MOST_MINUTES = 1440;
const MOST_PROBES = 20_000;

/** @throws WrongUsage naming the flag, what was expected and what was there */
export function readOptions(args: readonly string[]): Options {
  const flags = parsed(args);
  return {
    cases: flags.case === undefined ? CASES : [caseNamed(flags.case)],
    rounds: wholeNumber('--rounds', flags.rounds, MOST_ROUNDS),
    messages: ifGiven('--messages', flags.messages, MOST_MESSAGES),
    minutes: ifGiven('--minutes', flags.minutes, MOST_MINUTES),
    probes: ifGiven('--probes', flags.probes, MOST_PROBES),
    json: flags.json,
  };
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      options: {
        case: { type: 'string' },
        rounds: { type: 'string', default: '5' },
        messages: { type: 'string' },
        minutes: { type: 'string' },
        probes: { type: 'string' },
        json: { type: 'boolean', default: false },
      },
    }).values;
  } catch (error) {
    throw new WrongUsage(`${(error as Error).message}; usage: ${USAGE}`);
  }
}

function caseNamed(name: string): Case {
  const found = CASES.find((one) => one.name === name);
  if (!found)
    throw new WrongUsage(
      `--case: expected ${CASES.map((one) => one.name).join(' or ')}, got ${JSON.stringify(name)}`,
    );
  return found;
}

const ifGiven = (flag: string, text: string | undefined, most: number): number | undefined =>
  text === undefined ? undefined : wholeNumber(flag, text, most);

function wholeNumber(flag: string, text: string, most: number): number {
  const number = /^\d+$/.test(text) ? Number(text) : Number.NaN;
  if (!(number >= 1 && number <= most))
    throw new WrongUsage(`${flag}: expected a whole number from 1 to ${most}, got ${JSON.stringify(text)}`);
  return number;
}
