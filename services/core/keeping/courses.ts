/** Courses of roots in a bed: at what depth each lies and how many roots it takes. */
import { SandlarderError } from '../errors.js';
import { figureOf } from './plan-figures.js';
import { depthOf_cm, type PlanStep } from './plan-step.js';
import type { RootSize } from './root-size.js';

/** A layer of roots, covered by sand. */
export interface Course {
  /** From the top of the sand to the top and to the underside of its roots, cm. */
  readonly top_cm: number;
  readonly bottom_cm: number;
  /** The step whose floor it has, from 0 at the top. */
  readonly step: number;
  readonly roots: number;
}

/** Between two spacings that are tried, cm. */
const TRIED_EVERY_cm = 0.25;

/** A hair's breadth, so that 5 cm are not less than 5 cm by rounding. */
const ROUNDING_cm = 1e-9;

/** Depth of each step's underside, cm. */
const undersides = (steps: readonly PlanStep[]): number[] =>
  steps.map((_, index) => depthOf_cm(steps.slice(0, index + 1)));

/** The narrowest step that the course reaches into with the sand under it. */
function stepOf(underside_cm: number, ledges_cm: readonly number[]): number {
  const reaches_cm = underside_cm + figureOf('sand_beside') - ROUNDING_cm;
  const found = ledges_cm.findIndex((ledge_cm) => reaches_cm <= ledge_cm);
  return found === -1 ? ledges_cm.length - 1 : found;
}

function courseAt(bottom_cm: number, steps: readonly PlanStep[], root: RootSize): Course {
  const step = stepOf(bottom_cm, undersides(steps));
  const { length, width } = steps[step] as PlanStep;
  const roots = Math.floor((length * width) / root.floor_cm2);
  return { top_cm: bottom_cm - root.width_cm, bottom_cm, step, roots };
}

/** Courses with so much sand under and between them; what is left lies on top. */
function spacedBy(
  sand_cm: number,
  count: number,
  steps: readonly PlanStep[],
  root: RootSize,
): readonly Course[] {
  const floor_cm = depthOf_cm(steps);
  return Array.from({ length: count }, (_, index) =>
    courseAt(floor_cm - sand_cm - index * (root.width_cm + sand_cm), steps, root),
  );
}

export const rootsIn = (courses: readonly Course[]): number =>
  courses.reduce((sum, { roots }) => sum + roots, 0);

/** The depth that one course takes, with the sand under and over it, cm. */
export const leastDepth_cm = (root: RootSize): number => root.width_cm + 2 * figureOf('sand_between');

/** By count alone: what the depth takes with the least sand. */
function countIn(depth_cm: number, root: RootSize): number {
  const least_cm = figureOf('sand_between');
  return Math.max(0, Math.floor((depth_cm - least_cm + ROUNDING_cm) / (root.width_cm + least_cm)));
}

/**
 * As many courses as the depth takes, spaced so that they hold the most roots; of equals the widest spaced.
 *
 * @param steps that `requirePlanSteps` lets pass
 * @returns from the floor up, as they are laid; none where not even one root fits
 */
export function coursesThatFit(steps: readonly PlanStep[], root: RootSize): readonly Course[] {
  const depth_cm = depthOf_cm(steps);
  const count = countIn(depth_cm, root);
  const even_cm = (depth_cm - count * root.width_cm) / (count + 1);
  const least_cm = figureOf('sand_between') - ROUNDING_cm;
  let best = spacedBy(even_cm, count, steps, root);
  for (let sand_cm = even_cm - TRIED_EVERY_cm; sand_cm >= least_cm; sand_cm -= TRIED_EVERY_cm) {
    const other = spacedBy(sand_cm, count, steps, root);
    if (rootsIn(other) > rootsIn(best)) best = other;
  }
  return best.filter(({ roots }) => roots > 0);
}

/**
 * `coursesThatFit`, at least one.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a bed too shallow or too small for a single course
 */
export function coursesIn(steps: readonly PlanStep[], root: RootSize): readonly Course[] {
  const depth_cm = depthOf_cm(steps);
  if (countIn(depth_cm, root) === 0)
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `bed: expected a depth of at least ${Math.ceil(leastDepth_cm(root))} cm for one course of such roots in sand, got ${depth_cm} cm`,
    );
  const courses = coursesThatFit(steps, root);
  if (courses.length === 0)
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `bed: expected at least ${Math.ceil(root.floor_cm2)} cm2 of floor for a root of ${root.mass_kg} kg, got ${Math.max(...steps.map(({ length, width }) => length * width))} cm2`,
    );
  return courses;
}

/** So many roots laid into courses from the floor up; courses that stay empty are left out. */
export function laid(courses: readonly Course[], roots: number): readonly Course[] {
  let left = roots;
  return courses.flatMap((course) => {
    const own = Math.min(left, course.roots);
    left -= own;
    return own > 0 ? [{ ...course, roots: own }] : [];
  });
}
