/**
 * A season to simulate: the site, its beds and probes, the weather, and what goes wrong. A file of this shape can be
 * given to `sandlarder simulate`.
 */
import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { SandlarderError } from '../services/core/errors.js';
import { idSchema } from '../services/core/model/id.js';
import { describeIssue } from '../services/core/model/problem.js';
import { bedSchema } from './scenario-bed.js';
import { scenarioProblems } from './scenario-checks.js';
import { faultsSchema } from './scenario-faults.js';
import { DAY, numberBetween as number } from './scenario-numbers.js';

const weatherSchema = z.strictObject({
  /** [day, mean °C], in order of days. */
  means: z
    .array(z.tuple([DAY, number(-20, 45)]))
    .min(1)
    .max(400),
  swing_C: number(0, 30),
  dewPoint_C: number(-30, 30),
  hotSpells: z
    .array(z.strictObject({ startDay: DAY, days: number(0.5, 60), warmer_C: number(-15, 15) }))
    .max(50)
    .default([]),
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
  /** So much too warm is a shade probe at most, °C: the sun reaches it for some hours of a clear day. */
  shadeSunlit_C: number(0, 30).default(0),
  /** How far what nobody knows of a bed departs from the usual: 0 not at all, 1 as far as it may be. */
  variation: number(0, 1).default(0),
  /** Scenarios of another series have other weather, beds and probes for the same seed. */
  series: z.string().max(100).default(''),
  faults: faultsSchema,
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

/** A scenario as it may be written: what has a usual value may be left out. */
export type ScenarioInput = z.input<typeof scenarioSchema>;

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
