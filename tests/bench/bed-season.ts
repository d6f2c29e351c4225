/**
 * A process in which the watch goes through one season of one bed, hour by hour, and after each day the bare filter does
 * its arithmetic of a day. It says `ready` once the season has been simulated, and answers `go` with what both took.
 */

import { type EvaluatedSeason, seasonsOf } from '../../services/commands/evaluation/season.js';
import { threadTime_ms } from '../../services/commands/evaluation/thread-time.js';
import { sandWatch } from '../../services/core/watch/sand-watch.js';
import { EVALUATION_SCENARIOS, type Scenario } from '../../simulator/index.js';
import { BareFilter } from './bare-filter.js';
import { type Figure, growthOf } from './figures.js';
import { type BothSides, SEASON } from './seasons.js';

/** Days whose cost is compared: the bed is known by the first, and the watch must not become slower as it stands. */
const EARLIER = [20, 70] as const;
const LATER = [100, 150] as const;

/** One core, s; bytes at rest, KiB; and that a day costs at the end what it did before, give or take what is measured. */
const GOAL_s = 3;
const GOAL_KiB = 256;
const GOAL_GROWTH = 1.1;

/** A stepped pit whose season was drawn with six probes. */
const DRAWN = { scenario: 'source near a probe', seed: 1 };

function seasonOf(rots: boolean): EvaluatedSeason {
  const drawn = EVALUATION_SCENARIOS[DRAWN.scenario]?.(DRAWN.seed) as Scenario;
  const beds = drawn.beds.map((bed) => (rots ? bed : { ...bed, rots: [] }));
  const scenario = { ...drawn, beds, days: SEASON.days };
  const [season] = seasonsOf(DRAWN.scenario, scenario, DRAWN.seed);
  if (season?.probes !== SEASON.probes || scenario.everyMinutes !== SEASON.everyMinutes)
    throw new Error(
      `expected a bed of ${SEASON.probes} probes that measure every ${SEASON.everyMinutes} min, got ${season?.probes} and ${scenario.everyMinutes}`,
    );
  return season;
}

const STEPS_A_DAY = 4;

/** What the work took of the processor, ms. */
function taken_ms(work: () => void): number {
  const before = threadTime_ms();
  work();
  return threadTime_ms() - before;
}

/** @throws Error where a rot is not told, or one that is not there is */
function measured({ watched, hours }: EvaluatedSeason, rots: boolean): BothSides {
  const watch = sandWatch.open(watched);
  const bare = new BareFilter(SEASON.probes);
  const perDay_ms: number[] = [];
  let bare_ms = 0;
  let largest_bytes = 0;
  let told = false;
  for (let day = 0; day < SEASON.days; day += 1) {
    const ours_ms = taken_ms(() => {
      for (const hour of hours.slice(24 * day, 24 * (day + 1)))
        for (const { type, kind, action } of watch.step(hour).changes)
          told ||= type === 'raise' && kind === 'heating' && action === 'unpack';
    });
    perDay_ms.push(ours_ms);
    bare_ms += taken_ms(() => {
      for (let step = 0; step < STEPS_A_DAY; step += 1) bare.step();
    });
    largest_bytes = Math.max(largest_bytes, Buffer.byteLength(watch.checkpoint()));
  }
  bare.check();
  if (told !== rots) throw new Error(`expected ${rots ? 'a rot' : 'no rot'} to be told, got the other`);
  const value = perDay_ms.reduce((sum, ms) => sum + ms, 0) / 1000;
  return {
    bare: { value: bare_ms / 1000 },
    ours: { value, figures: figuresOf(value, largest_bytes, perDay_ms) },
  };
}

const figuresOf = (seconds: number, largest_bytes: number, perDay_ms: readonly number[]): Figure[] => [
  { name: 'a bed-season on one core', value: seconds, unit: 's', goal: GOAL_s },
  { name: 'size at rest', value: largest_bytes / 1024, unit: 'KiB', goal: GOAL_KiB },
  {
    name: `a day from ${LATER.join(' to ')} against one from ${EARLIER.join(' to ')}`,
    value: growthOf(perDay_ms, EARLIER, LATER),
    unit: '',
    goal: GOAL_GROWTH,
  },
];

const rots = process.argv[2] === 'rots';
const season = seasonOf(rots);
process.on('message', () => process.send?.(measured(season, rots)));
process.once('disconnect', () => process.exit());
process.send?.('ready');
