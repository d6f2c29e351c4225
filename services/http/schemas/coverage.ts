import { z } from 'zod';
import { placeInWords } from '../../core/alarms/place-in-words.js';
import type { Step } from '../../core/model/bed.js';
import { ASKED, BLIND, FOUND } from '../../core/watch/coverage/index.js';
import type { CoverageQuery, CoverageView } from '../ports.js';
import { countQuerySchema, numberQuerySchema, yesQuerySchema } from './query.js';

/** What is asked where nothing is said. */
export const USUAL_COVERAGE = { power_W: 2, days: 7 } as const;

export const coverageQuerySchema = z.strictObject({
  power: numberQuerySchema(ASKED.power_W.low, ASKED.power_W.high)
    .default(USUAL_COVERAGE.power_W)
    .meta({ description: 'Heat of the source once it is grown, W: two kilograms rotting give about 2' }),
  days: countQuerySchema(ASKED.days.low, ASKED.days.high)
    .default(USUAL_COVERAGE.days)
    .meta({ description: 'Within so many days of its beginning it shall be told' }),
  next: yesQuerySchema.default(false).meta({
    description: 'Whether it is asked where the next probe would help most: takes some seconds more',
  }),
});

export const coverageQuery = ({
  power: power_W,
  ...rest
}: z.output<typeof coverageQuerySchema>): CoverageQuery => ({ power_W, ...rest });

const share = (description: string) => z.number().min(0).max(1).meta({ description });
const AT = { x: z.number(), y: z.number(), depth: z.number() };
const WHERE = z.string().meta({ description: 'The place in words, for somebody who stands at the bed' });

const blindSpotSchema = z.object({
  ...AT,
  radius: z.number().meta({ description: 'Holds all of it, cm' }),
  share: share("Of the bed's volume"),
  foundAfter_days: z.number().nullable().meta({
    description: 'After how many days a source in its middle would be found; null where not in three weeks',
  }),
  where: WHERE,
});

const nextSchema = z.object({ ...AT, share: share('Found once a probe is there'), where: WHERE });

export const coverageSchema = z
  .object({
    bed: z.string(),
    power_W: z.number(),
    days: z.number(),
    probes: z.number().int().meta({ description: 'Probes that stand in the bed' }),
    shade: z.boolean().meta({ description: 'Whether a probe stands in the shade outside' }),
    share: share(
      `Of the bed's volume: where a source would be told in time with a chance of ${FOUND} or more`,
    ),
    blindShare: share(`Of the bed's volume: where the chance is below ${BLIND}`),
    blindSpots: z.array(blindSpotSchema).meta({ description: 'The largest first; small ones are left out' }),
    places: z
      .array(z.object({ ...AT, chance: share('That a source there would be told in time') }))
      .meta({ description: 'All over the bed, for a drawing' }),
    next: nextSchema.nullable().optional().meta({
      description:
        'Where the next probe would help most; null where none would, absent where it was not asked',
    }),
  })
  .meta({ id: 'Coverage', description: 'What the probes of a bed would find; lengths in cm, as everywhere' });

export type CoverageDocument = z.output<typeof coverageSchema>;

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

interface At {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

const at = ({ x, y, depth }: At) => ({ x: rounded(x, 1), y: rounded(y, 1), depth: rounded(depth, 1) });

const whereIs = ({ x, y, depth }: At, steps: readonly Step[]): string =>
  placeInWords({ x, y, depth, radius: 0 }, steps).lines[1] ?? '';

export function coverageDocument(
  { bed, probes, shade, coverage, next }: CoverageView,
  { power_W, days }: CoverageQuery,
): CoverageDocument {
  return {
    ...{ bed: bed.id, power_W, days, probes, shade },
    share: rounded(coverage.share, 3),
    blindShare: rounded(coverage.blindShare, 3),
    blindSpots: coverage.blindSpots.map((spot) => ({
      ...at(spot),
      radius: rounded(spot.radius, 1),
      share: rounded(spot.share, 3),
      foundAfter_days: spot.foundAfter_days ?? null,
      where: whereIs(spot, bed.steps),
    })),
    places: coverage.places.map((place) => ({ ...at(place), chance: rounded(place.chance, 3) })),
    ...(next !== undefined && {
      next: next && { ...at(next), share: rounded(next.share, 3), where: whereIs(next, bed.steps) },
    }),
  };
}
