/**
 * `npm run fuzz`: what nobody should send, by chance, at the reader of messages, the built-in broker and every address of
 * the API. Prints how many cases were tried and what they came to; exits 1 at the first answer that is not as it must be.
 */
import { parseArgs } from 'node:util';
import { tryConnections } from './connections.js';
import { tryMessages } from './messages.js';
import { type Asked, type Tried, Unsound } from './part.js';
import { tryRequests } from './requests.js';
import { whileServed } from './served.js';

class WrongUsage extends Error {}

const FAILED = 1;
const WRONG_USAGE = 2;
const MOST = 1_000_000_000;

/** Of the cases of a run: a connection costs as much as a hundred messages, a request as some hundreds. */
const CONNECTIONS_share = 0.01;
const REQUESTS_share = 0.004;
/** Kinds of outcome that are shown of each part. */
const SHOWN = 12;

function readFlags(): Asked {
  let flags: { cases: string; seed: string };
  try {
    flags = parseArgs({
      options: { cases: { type: 'string', default: '1000000' }, seed: { type: 'string', default: '1' } },
    }).values;
  } catch (error) {
    throw new WrongUsage(`${(error as Error).message}; usage: npm run fuzz -- [--cases N] [--seed N]`);
  }
  return { cases: wholeNumber('--cases', flags.cases, 1000), seed: wholeNumber('--seed', flags.seed, 0) };
}

function wholeNumber(flag: string, given: string, least: number): number {
  const number = /^\d+$/.test(given) ? Number(given) : Number.NaN;
  if (number >= least && number <= MOST) return number;
  throw new WrongUsage(
    `${flag}: expected a whole number from ${least} to ${MOST}, got ${JSON.stringify(given)}`,
  );
}

function tell(part: string, { cases, outcomes }: Tried): void {
  const some = [...outcomes].slice(0, SHOWN).map(([outcome, count]) => `${outcome} ${count}`);
  process.stdout.write(`${part}: ${cases} cases: ${some.join(', ')}\n`);
}

async function run({ cases, seed }: Asked): Promise<void> {
  const connections = { cases: Math.round(cases * CONNECTIONS_share), seed };
  const requests = { cases: Math.round(cases * REQUESTS_share), seed };
  const messages = { cases: cases - connections.cases - requests.cases, seed };
  tell('messages', tryMessages(messages));
  tell('connections to the broker', await tryConnections(connections));
  tell('requests of the API', await whileServed((http) => tryRequests(requests, http)));
  process.stdout.write(`${cases} cases, seed ${seed}: every answer as it must be\n`);
}

try {
  await run(readFlags());
} catch (error) {
  const isOurs = error instanceof Unsound || error instanceof WrongUsage;
  process.stderr.write(`fuzz: ${isOurs ? error.message : String((error as Error).stack ?? error)}\n`);
  process.exitCode = error instanceof WrongUsage ? WRONG_USAGE : FAILED;
}
