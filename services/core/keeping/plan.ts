/** A bed before it is dug: from roots to keep, or from a space, to sand, courses, roof, probes and warmth. */
import { requireInDomain, SandlarderError } from '../errors.js';
import type { OnPlaced } from '../watch/coverage/index.js';
import { type Course, coursesIn, laid, leastDepth_cm, rootsIn } from './courses.js';
import { type Measures, requireMeasures, USUAL_MEASURES } from './measures.js';
import { planCautions } from './plan-cautions.js';
import { figureOf, PLAN_FIGURES, type PlanFigure, type PlanFigureName } from './plan-figures.js';
import { planProbes } from './plan-probes.js';
import { nearestTo, type Proposal, proposeBed } from './plan-proposal.js';
import { type PlanKind, type PlanStep, requirePlanSteps, volumesOfSteps_L } from './plan-steps.js';
import type { Plan, PlanFit } from './plan-types.js';
import { planWork } from './plan-work.js';
import { roofOver } from './roof.js';
import { type RootSize, sizeOfRoot } from './root-size.js';
import { sandNeeded } from './sand-needed.js';
import { takeAlong } from './take-along.js';
import { warmthAboveGround_C } from './warmth-above-ground.js';

export interface PlanQuestion {
  readonly kind: PlanKind;
  /** cm, from the top down; where absent a bed is proposed for the roots. */
  readonly steps?: readonly PlanStep[] | undefined;
  /** How many roots, or how many kg, 1 to 1,000,000; where absent as many as fit. Not both. */
  readonly roots?: number | undefined;
  readonly roots_kg?: number | undefined;
  /** Mean mass of a root, 0.05 to 2 kg. */
  readonly root_kg?: number | undefined;
  readonly bucket_L?: number | undefined;
  readonly measures?: Measures | undefined;
  /** 0 to 20; where absent as many as are worth it. */
  readonly probes?: number | undefined;
  /** Around a pit, or of the air around a box, °C. */
  readonly ground_C?: number | undefined;
}

export const MOST_ASKED = 1_000_000;

/** @returns whole roots; undefined where nothing was asked for */
function askedRoots({ roots, roots_kg }: PlanQuestion, root: RootSize): number | undefined {
  if (roots !== undefined && roots_kg !== undefined)
    throw new SandlarderError('OUT_OF_DOMAIN', 'roots: expected a number or a mass, got both');
  if (roots_kg !== undefined) {
    requireInDomain('mass of the roots, kg,', roots_kg, root.mass_kg, MOST_ASKED);
    return Math.ceil(roots_kg / root.mass_kg - 1e-9);
  }
  if (roots === undefined) return undefined;
  requireInDomain('roots', roots, 1, MOST_ASKED);
  if (!Number.isInteger(roots))
    throw new SandlarderError('OUT_OF_DOMAIN', `roots must be a whole number, got ${roots}`);
  return roots;
}

interface Room {
  readonly beds: number;
  readonly steps: readonly PlanStep[];
  readonly proposed: boolean;
}

function roomFor({ kind, steps }: PlanQuestion, roots: number | undefined, root: RootSize): Room {
  if (steps) return { beds: 1, steps, proposed: false };
  if (roots === undefined)
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      'plan: expected roots to keep, or the steps of a bed, got neither',
    );
  const proposal = proposeBed(kind, roots, root);
  if (!proposal)
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `plan: expected roots that a usual bed takes, got ${root.mass_kg} kg each, which need a depth of ${Math.ceil(leastDepth_cm(root))} cm`,
    );
  return { beds: proposal.beds, steps: proposal.steps, proposed: true };
}

function fitOf(
  { kind }: PlanQuestion,
  { beds, steps }: Room,
  asked: number | undefined,
  most: number,
  root: RootSize,
): PlanFit {
  if (asked === undefined || asked <= beds * most) return { fits: true };
  const { steps: nearest, ...rest }: Proposal = nearestTo(kind, steps, asked, most, root);
  return { fits: false, nearest: { ...rest, steps: nearest.map(stepOut) } };
}

const stepOut = ({ length, width, height }: PlanStep) => ({
  length_cm: length,
  width_cm: width,
  height_cm: height,
});

const courseOut = ({ top_cm, bottom_cm, step, roots }: Course, index: number) => ({
  course: index + 1,
  step: step + 1,
  top_cm,
  bottom_cm,
  roots,
});

const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

/** What a bed was planned with: the figures, those that the user set with what was set. */
function assumed(set: Partial<Record<PlanFigureName, number>>): Record<string, PlanFigure> {
  return Object.fromEntries(
    Object.entries(PLAN_FIGURES).map(([name, figure]) => {
      const value = set[name as PlanFigureName];
      return [
        name,
        value === undefined || value === figure.value ? figure : { ...figure, value, source: 'as asked for' },
      ];
    }),
  );
}

/** A bed with its roots in their courses. */
interface Filled {
  readonly kind: PlanKind;
  readonly steps: readonly PlanStep[];
  readonly courses: readonly Course[];
  readonly volumes_L: readonly number[];
  readonly bed_L: number;
  readonly roots: number;
  readonly roots_L: number;
  readonly roots_kg: number;
}

function fill(
  kind: PlanKind,
  steps: readonly PlanStep[],
  courses: readonly Course[],
  roots: number,
  root: RootSize,
): Filled {
  const volumes_L = volumesOfSteps_L(steps);
  return {
    kind,
    steps,
    courses: laid(courses, roots),
    volumes_L,
    bed_L: sumOf(volumes_L),
    roots,
    roots_L: roots * root.volume_L,
    roots_kg: roots * root.mass_kg,
  };
}

function diggingOf({ kind, bed_L }: Filled): Pick<Plan, 'digging_L' | 'dug_out_L'> {
  const digging_L = kind === 'box' ? 0 : bed_L;
  return {
    digging_L,
    dug_out_L: { low: digging_L * figureOf('swell_low'), high: digging_L * figureOf('swell_high') },
  };
}

function probesOf(
  { kind, steps, roots, roots_kg }: Filled,
  count: number | undefined,
  onPlaced: OnPlaced | undefined,
): Pick<Plan, 'probes' | 'coverage_share' | 'coverage_share_by_count'> {
  const bed = { kind, steps: [...steps], roots: { count: roots, mass_kg: roots_kg } };
  const { probes, share, shares } = planProbes(bed, count, onPlaced);
  return { probes, coverage_share: share, coverage_share_by_count: shares };
}

/** All that one bed needs and how it will be; what it was asked for is left to `planBed`. */
function planOf(bed: Filled, question: PlanQuestion, onPlaced: OnPlaced | undefined) {
  const { kind, steps, roots, roots_kg } = bed;
  const { bucket_L = figureOf('bucket'), ground_C = figureOf('ground'), probes: count } = question;
  const { measures = USUAL_MEASURES } = question;
  const courses = bed.courses.map(courseOut);
  const sand = sandNeeded(bed.bed_L, bed.roots_L, bucket_L);
  const warmth = warmthAboveGround_C(bed, ground_C);
  const probes = probesOf(bed, count, onPlaced);
  const roof = kind === 'box' ? null : roofOver(steps[0] as PlanStep);
  const needed = { kind, roots, roots_kg, roof, bucket_L, probes: probes.probes.length };
  return {
    steps: steps.map(stepOut),
    volume_L: { steps: bed.volumes_L, total: bed.bed_L },
    roots,
    roots_kg,
    courses,
    ...sand,
    bucket_L,
    ...diggingOf(bed),
    roof,
    ground_C,
    warmth_above_ground_C: warmth ?? null,
    ...probes,
    take_along: takeAlong({ ...needed, ...sand }),
    work: planWork({ ...needed, ...sand, steps, courses, measures }),
    cautions: planCautions({ kind, steps, bucket_kg: sand.bucket_kg, rests: warmth !== undefined }),
  };
}

/**
 * Plans one bed, or as many equal ones as its roots need.
 *
 * @param onPlaced told of each probe that is placed
 * @returns the figures of one bed, with those of all beds in `all_beds`; where not all roots fit, the plan for as many as
 * do, with the nearest bed that takes all. Costs some seconds of one core where probes are to be placed
 * @throws SandlarderError OUT_OF_DOMAIN, LIMIT_EXCEEDED
 */
export function planBed(question: PlanQuestion, onPlaced?: OnPlaced): Plan {
  const { kind, measures = USUAL_MEASURES, root_kg, bucket_L = figureOf('bucket') } = question;
  const root = sizeOfRoot(root_kg);
  requireMeasures(measures);
  const asked = askedRoots(question, root);
  const room = roomFor(question, asked, root);
  const { beds, steps, proposed } = room;
  requirePlanSteps(kind, steps);
  const courses = coursesIn(steps, root);
  const most = rootsIn(courses);
  const own = Math.min(most, asked === undefined ? most : Math.ceil(asked / beds));
  const planned = planOf(fill(kind, steps, courses, own, root), question, onPlaced);
  const { sand_L, sand_kg, buckets, digging_L } = planned;
  return {
    kind,
    proposed,
    beds,
    ...fitOf(question, room, asked, most, root),
    ...(asked !== undefined && { asked_roots: asked }),
    most_roots: most,
    root,
    ...planned,
    all_beds: {
      roots: Math.min(asked ?? own, beds * most),
      sand_L: beds * sand_L,
      sand_kg: beds * sand_kg,
      buckets: beds * buckets,
      digging_L: beds * digging_L,
    },
    measures,
    assumptions: assumed({
      root_kg: root.mass_kg,
      bucket: bucket_L,
      ground: planned.ground_C,
      hand: measures.hand_cm,
      span: measures.span_cm,
      forearm: measures.forearm_cm,
      stride: measures.stride_cm,
    }),
  };
}
