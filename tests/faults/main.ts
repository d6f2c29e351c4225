/**
 * `npm run faults`: what happens in a shed, done to a real service. Prints what was sent, acknowledged, kept and told in
 * each case; exits 1 where anything was lost or doubled, or was not said.
 */
import { loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { cleaningUp, undoAll } from '../bench/processes.js';
import { CASES, type Case } from './cases.js';
import { type Counts, NotHeld } from './counting.js';

class WrongUsage extends Error {}

const FAILED = 1;
const WRONG_USAGE = 2;
const MOST_KILLS = 100_000;

interface Asked {
  readonly cases: readonly Case[];
  readonly kills: number;
}

function readFlags(): Asked {
  try {
    const { values } = parseArgs({
      options: {
        case: { type: 'string', multiple: true, default: CASES.map(({ name }) => name) },
        kills: { type: 'string', default: '200' },
      },
    });
    return { cases: values.case.map(caseOf), kills: killsOf(values.kills) };
  } catch (error) {
    throw new WrongUsage(
      `${(error as Error).message}; usage: npm run faults -- [--case NAME ...] [--kills N]`,
    );
  }
}

function caseOf(name: string): Case {
  const found = CASES.find((one) => one.name === name);
  if (found) return found;
  throw new WrongUsage(
    `--case: expected one of ${CASES.map((one) => one.name).join(', ')}, got ${JSON.stringify(name)}`,
  );
}

function killsOf(given: string): number {
  const kills = /^\d+$/.test(given) ? Number(given) : Number.NaN;
  if (kills >= 1 && kills <= MOST_KILLS) return kills;
  throw new WrongUsage(
    `--kills: expected a whole number from 1 to ${MOST_KILLS}, got ${JSON.stringify(given)}`,
  );
}

const inWords = (counts: Counts): string =>
  Object.entries(counts)
    .map(([what, count]) => (typeof count === 'number' ? `${what} ${count}` : `\n  ${what}: ${count}`))
    .join(', ')
    .replaceAll(', \n', '\n');

/** @returns whether it held */
async function tryOne({ name, about, run }: Case, kills: number): Promise<boolean> {
  const began = performance.now();
  const say = (text: string): void => {
    const seconds = Math.round((performance.now() - began) / 1000);
    process.stdout.write(`${name} (${about}, ${seconds} s, load ${loadavg()[0]?.toFixed(1)}): ${text}\n`);
  };
  try {
    say(inWords(await cleaningUp((undo) => run(undo, kills))));
    return true;
  } catch (error) {
    say(`NOT HELD: ${error instanceof NotHeld ? error.message : String((error as Error).stack ?? error)}`);
    return false;
  }
}

async function runAll({ cases, kills }: Asked): Promise<void> {
  let failed = 0;
  for (const one of cases) if (!(await tryOne(one, kills))) failed += 1;
  process.stdout.write(
    failed === 0
      ? `${cases.length} cases: nothing acknowledged was lost, nothing doubled, all of it said\n`
      : `${failed} of ${cases.length} cases did not hold\n`,
  );
  if (failed > 0) process.exitCode = FAILED;
}

for (const signal of ['SIGINT', 'SIGTERM'] as const)
  process.once(signal, () => void undoAll().finally(() => process.exit(FAILED)));
try {
  await runAll(readFlags());
} catch (error) {
  process.stderr.write(`faults: ${error instanceof WrongUsage ? error.message : String(error)}\n`);
  process.exitCode = error instanceof WrongUsage ? WRONG_USAGE : FAILED;
}
