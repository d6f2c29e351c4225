/** `sandlarder evaluate`: simulated seasons through the whole watch, beside simple rules on the same readings. */
import { EVALUATION_SCENARIOS, loadScenario, type Scenario } from '../../simulator/index.js';
import { sandWatch } from '../core/watch/sand-watch.js';
import { ruleValues } from './evaluation/rules.js';
import { scoreSeason } from './evaluation/score.js';
import { seasonsOf } from './evaluation/season.js';
import { heading, LEGEND, row, ruleRow } from './evaluation/table.js';
import { ruleTotals, type SeasonValues, totalsOf } from './evaluation/totals.js';
import { watchSeason } from './evaluation/watched-season.js';
import { readWhole } from './numbers.js';

export interface EvaluateFlags {
  readonly seeds: string;
  readonly firstSeed: string;
  readonly json?: boolean;
}

/** Seeds in one run at the most: each is some seconds of every scenario. */
const MOST_SEEDS = 1000;

type Making = (seed: number) => Scenario;

function makingOf(name: string): Making {
  const own = Object.hasOwn(EVALUATION_SCENARIOS, name) ? EVALUATION_SCENARIOS[name] : undefined;
  if (own) return own;
  const scenario = loadScenario(name);
  return () => scenario;
}

interface Cost {
  readonly cpu_ms: number;
  readonly state_bytes: number;
}

export function evaluate(names: readonly string[], flags: EvaluateFlags): void {
  const seeds = readWhole('--seeds', flags.seeds, 1, MOST_SEEDS);
  const first = readWhole('--first-seed', flags.firstSeed, 0, 2 ** 31);
  const makings = (names.length > 0 ? names : Object.keys(EVALUATION_SCENARIOS)).map(
    (name) => [name, makingOf(name)] as const,
  );
  const say = (line: string): void => void process.stdout.write(`${line}\n`);
  if (!flags.json) for (const line of [...LEGEND, '', heading()]) say(line);
  const all: SeasonValues[] = [];
  const costs: Cost[] = [];
  for (const [name, making] of makings) {
    const own: SeasonValues[] = [];
    for (let seed = first; seed < first + seeds; seed += 1)
      for (const season of seasonsOf(name, making(seed), seed)) {
        const { changes, ...cost } = watchSeason(season, sandWatch);
        const score = scoreSeason(season, changes);
        own.push({ score, rules: ruleValues(season) });
        costs.push(cost);
        if (flags.json) say(JSON.stringify({ ...score, ...cost }));
      }
    all.push(...own);
    if (!flags.json) say(row(name, totalsOf(own.map(({ score }) => score))));
  }
  const totals = totalsOf(all.map(({ score }) => score));
  const rules = ruleTotals(all);
  const cost = costOf(costs);
  if (flags.json) {
    say(JSON.stringify({ totals, rules, cost }));
    return;
  }
  say(row('all', totals));
  say('');
  say('Simple rules on the same readings, limits chosen afterwards in their favour:');
  for (const rule of rules) say(ruleRow(rule));
  say('');
  say(
    `${totals.soundMonths.toFixed(0)} sound bed-months; a season took the watch ${(cost.cpu_ms / 1000).toFixed(1)} s of one core (mean), its state ${Math.round(cost.state_bytes / 1024)} KiB at the most.`,
  );
}

const costOf = (costs: readonly Cost[]): Cost => ({
  cpu_ms: costs.reduce((sum, { cpu_ms }) => sum + cpu_ms, 0) / Math.max(1, costs.length),
  state_bytes: costs.reduce((most, { state_bytes }) => Math.max(most, state_bytes), 0),
});
