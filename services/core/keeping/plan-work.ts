/** The work of one planned bed, from the bare ground to the first look, in the order in which it is done. */
import { inMeasures, type Measures } from './measures.js';
import { figureOf } from './plan-figures.js';
import type { PlanKind, PlanStep } from './plan-steps.js';
import type { CourseOfPlan } from './plan-types.js';
import type { Roof } from './roof.js';

export interface WorkOfBed {
  readonly kind: PlanKind;
  readonly steps: readonly PlanStep[];
  readonly roof: Roof | null;
  readonly buckets: number;
  /** From the floor up. */
  readonly courses: readonly CourseOfPlan[];
  readonly probes: number;
  readonly measures: Measures;
}

const whole = (value: number): string => String(Math.round(value));
const plural = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

/** Shorter lengths have no measure of a hand. */
const LEAST_cm = 5;

const long = (cm: number, measures: Measures): string =>
  cm < LEAST_cm ? `${whole(cm)} cm` : `${whole(cm)} cm (${inMeasures(cm, measures)})`;

const sidesOf = ({ length, width }: PlanStep, measures: Measures): string =>
  `${long(length, measures)} by ${long(width, measures)}`;

/** Common practice, no source. */
const PIT_PLACE = 'Choose a place that rain water runs away from, in shade where there is some.';
const BOX_PLACE = 'Stand the box under a roof, in the shade, off a damp floor.';
const DITCH = 'Dig a ditch around the pit that leads rain water away, downhill.';
const PIT_DRIES = 'Let the pit stand open and dry under its roof: fresh walls give off water for days.';
const SAND = 'Sieve the sand, dry it, and let it cool to the shade';
const LIST = 'Go through the list before filling: nothing goes in before its points are met.';
const WRITE = 'Write down what went in and where each probe lies: the bed is watched from then on.';
const LOOK = 'Look into it by hand every two weeks, from the first two on.';

function digging({ steps, measures }: WorkOfBed): string[] {
  const [top, ...below] = steps as [PlanStep, ...PlanStep[]];
  return [
    `Mark the opening: ${sidesOf(top, measures)}.`,
    `Dig it ${long(top.height, measures)} deep, and heap the earth a stride from the edge or further.`,
    ...below.map(
      (step, at) =>
        `In the middle of that floor dig ${sidesOf(step, measures)}, ${long(step.height, measures)} deeper: ${ledge(steps[at] as PlanStep, step)}.`,
    ),
  ];
}

function ledge(above: PlanStep, step: PlanStep): string {
  const atEnds = step.length < above.length;
  const atSides = step.width < above.width;
  if (atEnds && atSides) return 'a ledge stays all around';
  if (atEnds) return 'a ledge stays at both ends';
  return atSides ? 'a ledge stays along both sides' : 'no ledge stays';
}

const roofing = (roof: Roof | null, measures: Measures): string[] =>
  roof
    ? [
        `Put up the roof on ${plural(roof.side_poles, 'side pole')} and ${plural(roof.ridge_poles, 'ridge pole')} away from the edge; it covers ${long(roof.length_cm, measures)} by ${long(roof.width_cm, measures)}.`,
      ]
    : [];

/** Sand under, between and over the courses is the plan's own least. */
function filling({ courses, probes }: WorkOfBed): string[] {
  const sand = whole(figureOf('sand_between'));
  return [
    `Lay ${sand} cm of sand on the floor.`,
    ...courses.map(
      ({ course, step, roots }) =>
        `Course ${course}: ${plural(roots, 'root')} on step ${step}, none touching another or the wall; then ${sand} cm of sand or more over them.`,
    ),
    ...(probes > 0
      ? [`Bury the ${plural(probes, 'probe')} as the sand comes up to them, and hang one more in the shade.`]
      : []),
    'Fill up with sand to the top.',
  ];
}

/** @returns one plain sentence or two a step; with a box nothing is dug */
export function planWork(bed: WorkOfBed): string[] {
  const { kind, roof, buckets, measures } = bed;
  const place =
    kind === 'box' ? [BOX_PLACE] : [PIT_PLACE, ...digging(bed), DITCH, ...roofing(roof, measures), PIT_DRIES];
  return [...place, `${SAND}: ${plural(buckets, 'bucket')}.`, LIST, ...filling(bed), WRITE, LOOK];
}
