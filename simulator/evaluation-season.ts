/** The season around what an evaluation looks at: weather, site, beds. */
import { drawBed, type EvaluationBed } from './evaluation-beds.js';
import type { Draws } from './evaluation-draws.js';
import { type Scenario, type ScenarioInput, scenarioSchema } from './scenario.js';

type HotSpells = NonNullable<ScenarioInput['weather']['hotSpells']>;

/** Mean of the air and difference of day and night, °C: from cool highlands to hot lowlands. */
const MEAN_C = [16, 28] as const;
const SWING_C = [8, 16] as const;
/** How far the season's beginning, middle and end lie from that mean at the most, °C. */
const COURSE_C = 2.5;
/** Air of a dry season is so far from its dew point, °C. */
const DRYNESS_C = [7, 14] as const;

/** Roots to a litre of bed at the most, kg: where it is hot they are laid further apart, or they would heat. Judgement. */
const thickest_kg_L = (mean_C: number): number =>
  0.22 - (0.09 * (mean_C - MEAN_C[0])) / (MEAN_C[1] - MEAN_C[0]);

export interface SeasonWishes {
  readonly kind?: EvaluationBed['kind'];
  readonly spells?: readonly [least: number, most: number];
  readonly spell_C?: readonly [low: number, high: number];
}

/** What a scenario of the catalogue changes in the season that was drawn for it: in its first bed, above all. */
export interface DrawnSeason {
  readonly draws: Draws;
  readonly days: number;
  readonly bed: EvaluationBed;
}

type Change = Partial<Pick<ScenarioInput, 'faults' | 'shade' | 'shadeSunlit_C'>> & {
  readonly bed?: EvaluationBed;
};

/** Draws a season, and lets a scenario of the catalogue put into it what it is about. */
export function drawSeason(
  name: string,
  draws: Draws,
  { kind, spells = [0, 2], spell_C = [2, 5] }: SeasonWishes,
  change: (season: DrawnSeason) => Change,
): Scenario {
  const days = draws.whole('days', 120, 150);
  const mean_C = draws.between('mean', ...MEAN_C);
  const first = kind ?? draws.pick('kind', ['stepped-pit', 'box'] as const);
  const drawn = drawBed(draws, 1, first, probesOf(draws, 1), thickest_kg_L(mean_C));
  const { bed = drawn, ...rest } = change({ draws, days, bed: drawn });
  const other = first === 'box' ? 'stepped-pit' : 'box';
  const others = draws.chance('second bed', 0.3)
    ? [drawBed(draws, 2, other, probesOf(draws, 2), thickest_kg_L(mean_C))]
    : [];
  return scenarioSchema.parse({
    name,
    site: { id: 'trial-site', name: 'Made-up site', timezone: 'Africa/Lusaka' },
    days,
    everyMinutes: draws.pick('every', [10, 10, 20, 30] as const),
    weather: {
      means: [0, days / 2, days].map((day, at) => [
        day,
        mean_C + draws.between(`course ${at}`, -COURSE_C, COURSE_C),
      ]),
      swing_C: draws.between('swing', ...SWING_C),
      dewPoint_C: mean_C - draws.between('dryness', ...DRYNESS_C),
      hotSpells: drawSpells(draws, days, draws.whole('spells', ...spells), spell_C),
    },
    deepGround_C: mean_C + draws.between('deep ground', -1, 1),
    beds: [bed, ...others],
    shade: ['p91'],
    variation: 1,
    series: name,
    ...rest,
  } satisfies Loose);
}

/** Tuples are made by mapping, which forgets how long they are. */
type Loose = Omit<ScenarioInput, 'weather'> & { weather: object };

/** Four to six, now and then two. */
const probesOf = (draws: Draws, bed: number): number =>
  draws.chance(`bed ${bed} few probes`, 0.15) ? 2 : draws.whole(`bed ${bed} probes`, 4, 6);

const drawSpells = (
  draws: Draws,
  days: number,
  count: number,
  [low, high]: readonly [number, number],
): HotSpells =>
  Array.from({ length: count }, (_, at) => ({
    startDay: draws.between(`spell ${at} start`, 5, days - 10),
    days: draws.between(`spell ${at} length`, 3, 9),
    warmer_C: draws.between(`spell ${at} warmth`, low, high),
  }));
