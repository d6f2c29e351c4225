/** What went into a bed when it was filled, course by course, and where the probes came to lie. */
import { z } from 'zod';
import { blocksOf, holdsPoint, type Step } from './bed.js';
import { idSchema } from './id.js';
import type { Problem } from './site.js';
import { timeSchema } from './time.js';
import { whoSchema } from './who.js';

export const FILLING_LIMITS = { courses: 50, probes: 200, roots: 1_000_000 } as const;

const text = z.string().trim().min(1).max(200);
const mass_kg = z.number().positive().max(1_000_000);

const courseSchema = z
  .strictObject({
    roots: z.number().int().positive().max(FILLING_LIMITS.roots),
    mass_kg: mass_kg.optional(),
  })
  .readonly();

/** As it was buried, in centimetres from the north-west corner of the opening, depth from the top of the sand. */
const buriedSchema = z
  .strictObject({ probe: idSchema, x: z.number(), y: z.number(), depth: z.number() })
  .readonly();

const shape = {
  /** Given by the device that it was written on, so that what is sent twice is kept once. */
  id: z.uuid('expected a UUID').toLowerCase(),
  at: timeSchema,
  by: whoSchema,
  /** From the bottom, the lowest first. */
  courses: z.array(courseSchema).min(1).max(FILLING_LIMITS.courses).readonly(),
  /** Of all courses together, where they were not weighed one by one. */
  mass_kg: mass_kg.optional(),
  cultivar: text.optional(),
  field: text.optional(),
  lot: text.optional(),
  probes: z.array(buriedSchema).max(FILLING_LIMITS.probes).readonly().default([]),
  /** The filling of the bed that was written down wrongly, and whose place this one takes. */
  supersedes: z.uuid('expected a UUID').toLowerCase().optional(),
  note: z.string().trim().min(1).max(2000).optional(),
};

export const fillingSchema = z.strictObject({ ...shape, bed: idSchema }).readonly();

/** The body of `POST /api/beds/{bed}/fillings`. */
export const fillingBodySchema = z.strictObject(shape).readonly();
export type FillingBody = z.output<typeof fillingBodySchema>;

export type Filling = z.output<typeof fillingSchema>;
export type BuriedProbe = Filling['probes'][number];

/** Roots of all courses. */
export const rootsFilled = ({ courses }: Pick<Filling, 'courses'>): number =>
  courses.reduce((sum, { roots }) => sum + roots, 0);

/** Mass of all roots, kg: as given, or of the courses where all were weighed; undefined where neither. */
export function massFilled_kg({
  courses,
  mass_kg,
}: Pick<Filling, 'courses' | 'mass_kg'>): number | undefined {
  if (mass_kg !== undefined) return mass_kg;
  return courses.reduce<number | undefined>(
    (sum, course) => (sum === undefined || course.mass_kg === undefined ? undefined : sum + course.mass_kg),
    0,
  );
}

/** kg by which a mass of all may differ from the sum of its courses, as a share: scales and soil. Judgement. */
const MASS_TOLERANCE = 0.05;

/** Mass of a sweet potato root, kg. 0.2 to 0.5 are usual (published means); one of 10 kg, or of 5 g, is a slip. */
const ROOT_LEAST_kg = 0.005;
const ROOT_MOST_kg = 10;

/**
 * What in a filling does not hold together, each as a key and a sentence; none where all does.
 *
 * @param steps of the bed
 */
export const fillingProblems = (filling: Filling, steps: readonly Step[]): Problem[] => [
  ...massProblems(filling),
  ...probeProblems(filling, steps),
];

function massProblems(filling: Filling): Problem[] {
  const mass = massFilled_kg(filling);
  if (mass === undefined) return [];
  const each_kg = mass / rootsFilled(filling);
  const problems: Problem[] = [];
  if (!(each_kg >= ROOT_LEAST_kg && each_kg <= ROOT_MOST_kg))
    problems.push({
      path: ['mass_kg'],
      message: `expected ${ROOT_LEAST_kg} to ${ROOT_MOST_kg} kg a root, got ${mass} kg for ${rootsFilled(filling)} roots`,
    });
  const together = massFilled_kg({ courses: filling.courses });
  if (together !== undefined && !(Math.abs(together - mass) <= MASS_TOLERANCE * mass))
    problems.push({
      path: ['mass_kg'],
      message: `expected what the courses weigh together, ${Number(together.toFixed(3))} kg, got ${mass}`,
    });
  return problems;
}

function probeProblems({ probes }: Filling, steps: readonly Step[]): Problem[] {
  const blocks = blocksOf(steps);
  return probes.flatMap(({ probe, x, y, depth }, at): Problem[] => {
    const first = probes.findIndex((other) => other.probe === probe);
    if (first !== at)
      return [
        {
          path: ['probes', at, 'probe'],
          message: `expected each probe once, got "${probe}", which probes[${first}] is`,
        },
      ];
    if (holdsPoint(blocks, x, y, depth)) return [];
    return [
      {
        path: ['probes', at],
        message: `expected a point inside the bed, got x ${x}, y ${y}, depth ${depth} cm`,
      },
    ];
  });
}
