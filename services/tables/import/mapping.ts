/**
 * What the columns of a table of readings mean: stated by whoever knows where it came from, never guessed.
 * Unknown keys are refused by name, so that a misspelling is not silently ignored.
 */
import { z } from 'zod';
import { SandlarderError } from '../../core/errors.js';
import { idSchema } from '../../core/model/id.js';
import { describeIssue } from '../../core/model/problem.js';
import { patternProblem } from './time-pattern.js';
import { IMPORT_UNITS, unitProblem } from './units.js';
import { zoneProblem } from './zone-clock.js';

/** Bounds of a mapping: they keep a mistyped file from filling memory. */
export const MAPPING_LIMITS = { values: 1000, names: 20_000, skipped_lines: 1000 } as const;

/** Name of a column as its header has it, or `#3` for the third. */
const columnSchema = z.string().trim().min(1).max(200);

/** Times that a change of the clocks gives twice, and those that it leaves out. */
export const REPEATED = ['refuse', 'earlier', 'later'] as const;
export const SKIPPED = ['refuse', 'before', 'after'] as const;

export const ISO = 'iso';
export const EPOCHS = { 'epoch-s': 1000, 'epoch-ms': 1 } as const;
const hasPattern = (format: string): boolean => format !== ISO && !Object.hasOwn(EPOCHS, format);

const timeSchema = z
  .strictObject({
    /** One, or those of date and clock, which are read with a blank between them. */
    column: z.union([columnSchema.transform((one) => [one]), z.array(columnSchema).min(1).max(2)]),
    format: z.string().min(1).max(100).default(ISO),
    zone: z.string().optional(),
    repeated: z.enum(REPEATED).default('refuse'),
    skipped: z.enum(SKIPPED).default('refuse'),
  })
  .superRefine(({ format, zone }, context) => {
    const issue = (path: string, message: string): void =>
      context.addIssue({ code: 'custom', path: [path], message });
    const wrongZone = zone === undefined ? undefined : zoneProblem(zone);
    if (wrongZone !== undefined) issue('zone', wrongZone);
    if (!hasPattern(format)) return;
    const wrong = patternProblem(format, zone !== undefined);
    if (wrong !== undefined) issue(wrong.of, wrong.message);
  });

const probeSchema = z.union([
  idSchema,
  z.strictObject({
    column: columnSchema,
    /** What the table calls them, to their ids here. */
    names: z
      .record(z.string(), idSchema)
      .refine((names) => Object.keys(names).length <= MAPPING_LIMITS.names, 'expected fewer names')
      .optional(),
  }),
]);

const valueSchema = z
  .strictObject({
    column: columnSchema,
    quantity: z.enum(['temperature', 'humidity', 'battery']),
    unit: z.enum(IMPORT_UNITS),
    /** In a wide table: whose column it is. */
    probe: idSchema.optional(),
    /** In a long table: only in rows in which another column says this. */
    where: z.strictObject({ column: columnSchema, is: z.string().max(200) }).optional(),
  })
  .superRefine(({ quantity, unit }, context) => {
    const problem = unitProblem(quantity, unit);
    if (problem !== undefined) context.addIssue({ code: 'custom', path: ['unit'], message: problem });
  });

export const mappingSchema = z
  .strictObject({
    version: z.literal(1),
    site: idSchema,
    encoding: z.enum(['utf-8', 'latin1']).default('utf-8'),
    /** Found by the names of columns where absent. */
    separator: z.enum([',', ';', 'tab']).optional(),
    decimal: z.enum(['.', ',']).default('.'),
    /** Lines before the header, or before the first row. */
    skip: z.int().nonnegative().max(MAPPING_LIMITS.skipped_lines).default(0),
    header: z.boolean().default(true),
    time: timeSchema,
    probe: probeSchema.optional(),
    values: z.array(valueSchema).min(1).max(MAPPING_LIMITS.values),
    /** What stands where nothing was measured, besides nothing. */
    missing: z.array(z.string().trim().max(100)).max(100).default([]),
  })
  .superRefine((mapping, context) => {
    for (const { path, message } of mappingProblems(mapping))
      context.addIssue({ code: 'custom', path, message });
  });

export type Mapping = z.output<typeof mappingSchema>;
export type MappedValue = Mapping['values'][number];
export type MappedTime = Mapping['time'];

interface Problem {
  readonly path: (string | number)[];
  readonly message: string;
}

type Checked = Pick<Mapping, 'probe' | 'values' | 'header' | 'separator'>;

/** What does not go together. */
function mappingProblems({ probe, values, header, separator }: Checked): Problem[] {
  const problems: Problem[] = [];
  if (!header && separator === undefined)
    problems.push({ path: ['separator'], message: 'expected one of , ; tab for a table without a header' });
  const seen = new Map<string, number>();
  values.forEach((value, index) => {
    const whose = value.probe ?? (typeof probe === 'string' ? probe : probe?.column);
    if (whose === undefined)
      problems.push({
        path: ['values', index, 'probe'],
        message: 'expected the id of a probe here, or "probe" for the whole table',
      });
    if (value.probe !== undefined && typeof probe === 'object')
      problems.push({
        path: ['values', index, 'probe'],
        message: 'expected probes by a column or by name, got both',
      });
    const key = JSON.stringify([whose, value.quantity, value.unit === '%EL', value.where]);
    const first = seen.get(key);
    if (first !== undefined)
      problems.push({
        path: ['values', index],
        message: `expected each quantity of a probe once, got ${value.quantity} also in values[${first}]`,
      });
    seen.set(key, index);
  });
  return problems;
}

/**
 * @param name what messages call it
 * @throws SandlarderError WRONG_USAGE naming the key, what was expected and what was there
 */
export function readMapping(name: string, json: unknown): Mapping {
  const parsed = mappingSchema.safeParse(json, { reportInput: true });
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  throw new SandlarderError('WRONG_USAGE', `${name}: ${issue ? describeIssue(issue) : 'expected a mapping'}`);
}
