/**
 * Seasons to put a watch to the test, by plain names: each a function of a seed. Everything about them, from the
 * weather to the warmth of roots, is drawn from the seed; the same seed is to be given to the simulation.
 */
import type { EvaluationBed } from './evaluation-beds.js';
import { Draws } from './evaluation-draws.js';
import { drawFaults, drawOpenings, drawOutages } from './evaluation-mishaps.js';
import { type DrawnSeason, drawSeason, type SeasonWishes } from './evaluation-season.js';
import { EARLY, FAR, NEAR, type SourceWishes, WEAK, withSource } from './evaluation-sources.js';
import type { Scenario } from './scenario.js';

interface Entry {
  readonly wishes?: SeasonWishes;
  readonly change: Parameters<typeof drawSeason>[3];
}

const source =
  (wishes: SourceWishes) =>
  ({ bed, draws }: DrawnSeason): { bed: EvaluationBed } => ({
    bed: withSource(bed, draws, wishes),
  });

const shadeInTheSun = ({ draws }: DrawnSeason) => ({ shadeSunlit_C: draws.between('sunlit', 3, 8) });

/** None at all, or one that falls silent in the first half of the season. */
const shadeMissing = ({ draws, days }: DrawnSeason) =>
  draws.chance('no shade at all', 0.5)
    ? { shade: [] }
    : {
        faults: {
          probes: [
            { kind: 'silent' as const, probe: 'p91', startDay: draws.between('silent from', 3, days / 2) },
          ],
        },
      };

const MANY_SPELLS: SeasonWishes = { spells: [3, 5], spell_C: [3, 7] };

const ENTRIES: Readonly<Record<string, Entry>> = {
  'source near a probe': { change: source(NEAR) },
  'source far from every probe': { change: source(FAR) },
  'weak source near a probe': { change: source(WEAK) },
  'two sources': {
    change: ({ bed, draws }) => ({
      bed: withSource(withSource(bed, draws, NEAR), draws, NEAR, 'second source'),
    }),
  },
  'source while learning': { change: source(EARLY) },
  'source, shade probe missing': {
    change: (season) => ({ ...source(NEAR)(season), ...shadeMissing(season) }),
  },
  'source, shade probe in the sun': {
    change: (season) => ({ ...source(NEAR)(season), ...shadeInTheSun(season) }),
  },
  'source, buffers come late': {
    change: (season) => {
      const { bed } = source(NEAR)(season);
      const around = bed.rots?.[0]?.startDay ?? 0;
      return { bed, faults: { outages: drawOutages(season, bed.id, around) } };
    },
  },
  'source in hot spells': { wishes: MANY_SPELLS, change: source(NEAR) },
  quiet: { wishes: { spells: [0, 0] }, change: () => ({}) },
  'hot spells': { wishes: MANY_SPELLS, change: () => ({}) },
  'opened and told, sand warmed by the sun': {
    change: (season) => ({ bed: { ...season.bed, openings: drawOpenings(season, true) } }),
  },
  'opened untold, sand warmed by the sun': {
    change: (season) => ({ bed: { ...season.bed, openings: drawOpenings(season, false) } }),
  },
  'sand taken from the top': {
    change: ({ bed, draws, days }) => ({
      bed: {
        ...bed,
        sandTaken: { day: draws.between('taken on', 15, days - 15), depth: draws.between('taken', 5, 12) },
      },
    }),
  },
  'one probe drifts': {
    change: ({ bed, draws, days }) => ({
      faults: {
        probes: [
          {
            kind: 'drift',
            probe: draws.some('drifting', bed.probes, 1)[0]?.id ?? '',
            startDay: draws.between('drift from', 12, days - 40),
            C_per_day: draws.between('drift', 0.05, 0.15) * (draws.chance('drift up', 0.6) ? 1 : -1),
          },
        ],
      },
    }),
  },
  'probes fail in other ways': { change: (season) => ({ faults: { probes: drawFaults(season) } }) },
  'shade probe missing': { change: shadeMissing },
  'shade probe in the sun': { change: shadeInTheSun },
  'leak with a wet front': {
    change: ({ bed, draws }) => {
      const { length, width } = bed.steps[0] ?? { length: 0, width: 0 };
      const leak = {
        startDay: draws.between('leak from', 12, 100),
        x: length * draws.between('leak x', 0.1, 0.9),
        y: width * draws.between('leak y', 0.1, 0.9),
        litres_per_day: draws.between('leak', 1.5, 5),
      };
      return { bed: { ...bed, leak } };
    },
  },
  'slow damping': {
    change: ({ bed, draws }) => {
      const damping = {
        startDay: draws.between('damping from', 12, 90),
        litres_per_day: draws.between('damping', 0.3, 1.5),
      };
      return { bed: { ...bed, damping } };
    },
  },
  'box in a hut, hot spells': { wishes: { ...MANY_SPELLS, kind: 'box' }, change: () => ({}) },
};

/** By name, a season for each seed. */
export const EVALUATION_SCENARIOS: Readonly<Record<string, (seed: number) => Scenario>> = Object.fromEntries(
  Object.entries(ENTRIES).map(([name, { wishes = {}, change }]) => [
    name,
    (seed: number) => drawSeason(name, new Draws(seed, name), wishes, change),
  ]),
);
