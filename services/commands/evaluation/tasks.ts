/** One scenario with one seed: all its beds through the watch and the rules. What comes out can go between threads. */
import type { Watch } from '../../core/watch/watch.js';
import type { SeasonValues } from './rule-totals.js';
import { ruleValues } from './rules.js';
import { makingOf } from './scenarios.js';
import { scoreSeason } from './score.js';
import { seasonsOf } from './season.js';
import { WATCH } from './watch-under-test.js';
import { type Cost, watchHours } from './watched-season.js';

export interface Task {
  readonly scenario: string;
  readonly seed: number;
}

export interface EvaluatedBed extends SeasonValues {
  readonly cost: Cost;
}

/** @throws SandlarderError WRONG_USAGE where there is no such scenario */
export function evaluateTask({ scenario, seed }: Task, watch: Watch = WATCH): EvaluatedBed[] {
  return Array.from(seasonsOf(scenario, makingOf(scenario)(seed), seed), (season) => {
    const { changes, cpu_ms, state_bytes } = watchHours(season.watched, season.hours, watch);
    const score = scoreSeason(season, changes);
    return { score, rules: ruleValues(season), cost: { cpu_ms, state_bytes } };
  });
}
