/**
 * `npm run bench`: ratios beside a bare part measured in the same run, in turns, so that a noisy machine hurts both.
 *
 *   npm run bench -- [--case built-in|mosquitto|memory] [--rounds N] [--messages N] [--json]
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { cpus } from 'node:os';
import { parseArgs } from 'node:util';
import { median } from 'simple-statistics';
import { memoryAt, RATIO_CASES, type RatioCase } from './cases.js';

const { values: flags } = parseArgs({
  options: {
    case: { type: 'string' },
    rounds: { type: 'string', default: '5' },
    messages: { type: 'string', default: '100000' },
    json: { type: 'boolean', default: false },
  },
});
const say = (line: string): void => {
  (flags.json ? process.stderr : process.stdout).write(`${line}\n`);
};

const version = (name: string): string => {
  const file = createRequire(import.meta.url)
    .resolve(name)
    .replace(new RegExp(`(.*node_modules/${name})/.*`), '$1/package.json');
  return (JSON.parse(readFileSync(file, 'utf8')) as { version: string }).version;
};
const machine = {
  date: new Date().toISOString(),
  processor: `${cpus().length} x ${cpus()[0]?.model ?? 'unknown'}`,
  node: process.version,
  packages: Object.fromEntries(
    ['mqtt', 'aedes', 'better-sqlite3', 'zod'].map((name) => [name, version(name)]),
  ),
};

async function measure({ name, what, wanted, bare, ours }: RatioCase) {
  const load = { beds: 10, probesPerBed: 5, messages: Number(flags.messages) };
  const rounds: { bare: number; ours: number; ratio: number }[] = [];
  for (let round = 0; round < Number(flags.rounds); round += 1) {
    const bareRate = await bare(load);
    const ourRate = await ours(load);
    rounds.push({ bare: bareRate, ours: ourRate, ratio: ourRate / bareRate });
    say(
      `  ${name} round ${round + 1}: bare ${bareRate.toFixed(0)}/s, ours ${ourRate.toFixed(0)}/s, ratio ${(ourRate / bareRate).toFixed(2)}`,
    );
  }
  const ratios = rounds.map(({ ratio }) => ratio);
  const spread = [Math.min(...ratios), Math.max(...ratios)] as const;
  say(
    `${name}: ratio ${median(ratios).toFixed(2)} (${spread.map((ratio) => ratio.toFixed(2)).join(' to ')}), wanted ${wanted} or better: ${what}`,
  );
  return { name, what, wanted, ratio: median(ratios), spread, rounds };
}

say(
  `${machine.date}, ${machine.processor}, Node.js ${machine.node}, ${Object.entries(machine.packages).flat().join(' ')}`,
);
const chosen = RATIO_CASES.filter(({ name }) => flags.case === undefined || flags.case === name);
const ratios = [];
for (const one of chosen) ratios.push(await measure(one));
const PROBES = 1000;
const memory = flags.case === undefined || flags.case === 'memory' ? await memoryAt(PROBES, 100) : undefined;
if (memory)
  say(
    `memory: ${memory.after_MiB.toFixed(0)} MiB resident after 100 readings each of ${PROBES} probes in ${PROBES / 5} beds, ${memory.idle_MiB.toFixed(0)} MiB before`,
  );
if (flags.json) process.stdout.write(`${JSON.stringify({ machine, ratios, memory })}\n`);
