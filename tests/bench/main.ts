/**
 * `npm run bench`: each figure beside a bare part that was measured in the same run. Exits 1 where a result was not
 * what it must be, 2 for wrong usage; a ratio below what is wanted is told, not failed: machines differ.
 */
import { hasInfluxd } from '../support/influxd.js';
import type { Case } from './cases.js';
import { type Comparison, compare } from './compare.js';
import { describeMachine, machineNow } from './machine.js';
import { hasMosquitto } from './mosquitto.js';
import { type Options, readOptions, WrongUsage } from './options.js';
import { undoAll } from './processes.js';
import { describeComparison, describeRound } from './report.js';

const FAILED = 1;
const WRONG_USAGE = 2;

/** Shells say 128 and the number of the signal. */
const STOPPED_BY = { SIGINT: 130, SIGTERM: 143 } as const;

async function run({ cases, rounds, json, ...size }: Options): Promise<void> {
  const say = (line: string): void => {
    (json ? process.stderr : process.stdout).write(`${line}\n`);
  };
  const machine = machineNow();
  say(describeMachine(machine));
  const comparisons: Comparison[] = [];
  for (const one of cases) {
    const missing = missingFor(one);
    if (missing !== undefined) {
      say(
        `${one.name}: not measured, expected ${missing} on this machine (apt-get install ${missing}), got none`,
      );
      continue;
    }
    const comparison = await compare(one, {
      ...{ rounds, size },
      onRound: (round, number) => say(describeRound(one.name, one.unit, number, round)),
    });
    say(describeComparison(comparison));
    comparisons.push(comparison);
  }
  if (json) process.stdout.write(`${JSON.stringify({ machine, comparisons })}\n`);
}

/** The Debian package that a case cannot be measured without; undefined where it is there. */
function missingFor({ needsMosquitto, needsInfluxd }: Case): string | undefined {
  if (needsMosquitto && !hasMosquitto) return 'mosquitto';
  return needsInfluxd && !hasInfluxd ? 'influxdb' : undefined;
}

let stopping = false;

for (const [signal, code] of Object.entries(STOPPED_BY))
  process.once(signal, async () => {
    stopping = true;
    await undoAll();
    process.exit(code);
  });

try {
  await run(readOptions(process.argv.slice(2)));
} catch (error) {
  if (!stopping) process.stderr.write(`bench: ${(error as Error).message}\n`);
  process.exitCode = error instanceof WrongUsage ? WRONG_USAGE : FAILED;
}
