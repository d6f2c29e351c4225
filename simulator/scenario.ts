/**
 * A season to simulate: the site, its beds and probes, the weather, and what goes wrong. A file of this shape can be
 * given to `sandlarder simulate`.
 */
import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { SandlarderError } from '../services/core/errors.js';
import { idSchema } from '../services/core/model/id.js';
import { describeIssue } from '../services/core/model/problem.js';
import { scenarioProblems } from './scenario-checks.js';

const number = (low: number, high: number) => z.number().min(low).max(high);
const day = number(0, 1000);
const place = { x: number(-1000, 1000), y: number(-1000, 1000) };

const weatherSchema = z.strictObject({
  /** [day, mean °C], in order of days. */
  means: z
    .array(z.tuple([day, number(-20, 45)]))
    .min(1)
    .max(400),
  swing_C: number(0, 30),
  dewPoint_C: number(-30, 30),
  hotSpells: z
    .array(z.strictObject({ startDay: day, days: number(0.5, 60), warmer_C: number(-15, 15) }))
    .max(50)
    .default([]),
});

const bedSchema = z.strictObject({
  id: idSchema,
  name: z.string().trim().min(1).max(200),
  kind: z.enum(['stepped-pit', 'box']),
  steps: z
    .array(z.strictObject({ length: number(10, 1000), width: number(10, 1000), height: number(5, 300) }))
    .min(1)
    .max(6),
  roots: z.strictObject({ count: z.number().int().min(0).max(100_000), mass_kg: number(0, 100_000) }),
  probes: z.array(z.strictObject({ id: idSchema, ...place, depth: number(0, 1000) })).max(100),
  rot: z
    .strictObject({
      startDay: day,
      ...place,
      depth: number(0, 1000),
      grown_W: number(0, 100),
      growth_days: number(0.5, 100),
    })
    .optional(),
  leak: z.strictObject({ startDay: day, ...place, litres_per_day: number(0, 500) }).optional(),
});

const shapeSchema = z.strictObject({
  name: z.string().trim().min(1).max(100),
  site: z.strictObject({
    id: idSchema,
    name: z.string().trim().min(1).max(200),
    timezone: z.string().min(1).max(60),
  }),
  days: z.number().int().min(1).max(400),
  /** Minutes between two readings of a probe. */
  everyMinutes: z.union([z.literal(10), z.literal(20), z.literal(30), z.literal(60)]).default(10),
  weather: weatherSchema,
  /** Temperature of the ground some two metres down, °C. */
  deepGround_C: number(0, 40),
  beds: z.array(bedSchema).min(1).max(40),
  /** Probes in the shade outside. */
  shade: z.array(idSchema).max(10),
  faults: z
    .strictObject({
      /** Share of readings that are never sent. */
      lost: number(0, 0.5).default(0.003),
      /** How often a bed's readings are held up, once in so many days on the average; 0 for never. */
      outageEvery_days: number(0, 1000).default(40),
    })
    .default({ lost: 0.003, outageEvery_days: 40 }),
});

/** A scenario as written down, before it is known whether its parts agree. */
export type ScenarioShape = z.output<typeof shapeSchema>;

export const scenarioSchema = shapeSchema.superRefine((scenario, context) => {
  for (const { path, message } of scenarioProblems(scenario))
    context.addIssue({ code: 'custom', path, message });
});

export type Scenario = z.output<typeof scenarioSchema> & {
  /** Hourly air temperatures of a file instead of made-up weather, °C. */
  readonly airTemperatures_C?: readonly number[];
};
export type SimulatedBed = Scenario['beds'][number];

/** @throws SandlarderError WRONG_USAGE with the file, the key, what was expected and what was there */
export function readScenarioFile(file: string): Scenario {
  let json: unknown;
  try {
    json = JSON.parse(readFileSync(file, 'utf8'));
  } catch (error) {
    throw new SandlarderError('WRONG_USAGE', `scenario ${file}: ${(error as Error).message}`);
  }
  const parsed = scenarioSchema.safeParse(json, { reportInput: true });
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  throw new SandlarderError(
    'WRONG_USAGE',
    `scenario ${file}: ${issue ? describeIssue(issue) : 'not a scenario'}`,
  );
}
