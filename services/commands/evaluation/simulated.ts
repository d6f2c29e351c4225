/** Simulated seasons through the watch: a row for each scenario as it is done, then what they come to together. */
import type { Say } from '../say.js';
import { evaluateAll } from './crew.js';
import { criteriaOf } from './criteria.js';
import { criteriaLines } from './criteria-table.js';
import { ruleTotals } from './rule-totals.js';
import { heading, LEGEND, RULES_LEGEND, row, ruleHeading, ruleRow, summaryLines } from './table.js';
import type { EvaluatedBed, Task } from './tasks.js';
import { totalsOf } from './totals.js';
import type { Cost } from './watched-season.js';

export interface SimulatedOptions {
  readonly scenarios: readonly string[];
  readonly seeds: number;
  readonly firstSeed: number;
  readonly json: boolean;
}

/** Mean time of the processor, and the longest state. */
const costOf = (costs: readonly Cost[]): Cost => ({
  cpu_ms: costs.reduce((sum, { cpu_ms }) => sum + cpu_ms, 0) / Math.max(1, costs.length),
  state_bytes: costs.reduce((most, { state_bytes }) => Math.max(most, state_bytes), 0),
});

const costLine = ({ cpu_ms, state_bytes }: Cost): string =>
  `A season of a bed took the watch ${(cpu_ms / 1000).toFixed(1)} s of one core (mean); its state ${Math.ceil(state_bytes / 1024)} KiB at the most.`;

export async function evaluateSimulated(options: SimulatedOptions, say: Say): Promise<void> {
  const { scenarios, seeds, firstSeed, json } = options;
  const tasks = scenarios.flatMap((scenario) =>
    Array.from({ length: seeds }, (_, at): Task => ({ scenario, seed: firstSeed + at })),
  );
  if (!json) for (const line of [...LEGEND, '', heading()]) say(line);
  const all: EvaluatedBed[] = [];
  let own: EvaluatedBed[] = [];
  let done = 0;
  for await (const beds of evaluateAll(tasks)) {
    own.push(...beds);
    if (json) for (const { score, cost } of beds) say(JSON.stringify({ ...score, ...cost }));
    done += 1;
    if (done % seeds > 0) continue;
    if (!json) say(row(scenarios[done / seeds - 1] ?? '', totalsOf(own.map(({ score }) => score))));
    all.push(...own);
    own = [];
  }
  sayTotals(all, json, say);
}

function sayTotals(all: readonly EvaluatedBed[], json: boolean, say: Say): void {
  const totals = totalsOf(all.map(({ score }) => score));
  const rules = ruleTotals(all);
  const cost = costOf(all.map((one) => one.cost));
  const criteria = criteriaOf(totals);
  if (json) {
    say(JSON.stringify({ totals, criteria, rules, cost }));
    return;
  }
  const ruleLines = [...RULES_LEGEND, '', ruleHeading(), ...rules.map(ruleRow)];
  const sums = [row('all', totals), '', ...summaryLines(totals), costLine(cost)];
  for (const line of [...sums, '', ...criteriaLines(criteria), '', ...ruleLines]) say(line);
}
