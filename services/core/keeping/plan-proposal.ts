/** Which bed takes so many roots: the smallest of the usual shapes, or a given bed made longer. */
import { coursesThatFit, rootsIn } from './courses.js';
import { type PlanKind, type PlanStep, volumesOfSteps_L } from './plan-steps.js';
import type { RootSize } from './root-size.js';

export interface Proposal {
  /** So many beds of this shape. */
  readonly beds: number;
  readonly steps: readonly PlanStep[];
  /** That one of them takes. */
  readonly most_roots: number;
}

/**
 * Usual shapes, cm. Common practice, no source: steps 60 cm wide and 25 cm high, each 50 cm shorter than the one above,
 * and boxes of about 100 x 50 x 75. The wider and longer ones up to what both arms reach are judgement; so is that a
 * pit has two steps at the least, since a shallow one follows the weather, and three at the most, so that it stays
 * below the waist.
 */
const PIT = { heights: 25, shorter: 50, steps: [2, 3], widths: [60, 80, 100] } as const;
const BOX = { heights: [50, 60, 75], widths: [40, 50, 60, 80] } as const;
const LENGTHS = { pit: { from: 100, to: 300 }, box: { from: 60, to: 200 } } as const;
const LONGER_cm = 10;

const lengthsOf = ({ from, to }: { from: number; to: number }): number[] =>
  Array.from({ length: (to - from) / LONGER_cm + 1 }, (_, index) => from + index * LONGER_cm);

const pitOf = (length: number, width: number, count: number): PlanStep[] =>
  Array.from({ length: count }, (_, index) => ({
    length: length - index * PIT.shorter,
    width,
    height: PIT.heights,
  }));

const pits = (): PlanStep[][] =>
  PIT.steps.flatMap((count) =>
    PIT.widths.flatMap((width) =>
      lengthsOf(LENGTHS.pit)
        .filter((length) => length > (count - 1) * PIT.shorter)
        .map((length) => pitOf(length, width, count)),
    ),
  );

const boxes = (): PlanStep[][] =>
  BOX.heights.flatMap((height) =>
    BOX.widths.flatMap((width) =>
      lengthsOf(LENGTHS.box)
        .filter((length) => length >= width)
        .map((length) => [{ length, width, height }]),
    ),
  );

const volume = (steps: readonly PlanStep[]): number =>
  volumesOfSteps_L(steps).reduce((sum, step_L) => sum + step_L, 0);

interface Candidate {
  readonly steps: readonly PlanStep[];
  readonly most: number;
  readonly bed_L: number;
}

const mostRootsIn = (steps: readonly PlanStep[], root: RootSize): number =>
  rootsIn(coursesThatFit(steps, root));

function smallestFor(roots: number, candidates: readonly Candidate[]): Candidate | undefined {
  return candidates
    .filter(({ most }) => most >= roots)
    .reduce<Candidate | undefined>((best, one) => (best && best.bed_L <= one.bed_L ? best : one), undefined);
}

/**
 * The smallest of the usual beds that takes the roots; where none does, as few equal ones as do.
 *
 * @param roots whole, at least 1
 * @returns undefined where no usual bed takes a single one of such roots
 */
export function proposeBed(kind: PlanKind, roots: number, root: RootSize): Proposal | undefined {
  const candidates = (kind === 'box' ? boxes() : pits()).map((steps) => ({
    steps,
    most: mostRootsIn(steps, root),
    bed_L: volume(steps),
  }));
  const largest = Math.max(...candidates.map(({ most }) => most));
  if (!(largest >= 1)) return undefined;
  const beds = Math.ceil(roots / largest);
  const found = smallestFor(Math.ceil(roots / beds), candidates);
  return found && { beds, steps: found.steps, most_roots: found.most };
}

/** The bed made longer by as little as will do, all steps alike, up to the usual length; the bed itself first. */
function lengthened(
  kind: PlanKind,
  steps: readonly PlanStep[],
  roots: number,
  root: RootSize,
): Omit<Proposal, 'beds'> | undefined {
  const { to } = kind === 'box' ? LENGTHS.box : LENGTHS.pit;
  const top = steps[0]?.length ?? to;
  for (let more = 0; more === 0 || top + more <= to; more += LONGER_cm) {
    const longer = steps.map((step) => ({ ...step, length: step.length + more }));
    const most_roots = mostRootsIn(longer, root);
    if (most_roots >= roots) return { steps: longer, most_roots };
  }
  return undefined;
}

/**
 * The nearest to a bed that is too small: as few beds as will do, each longer by as little as will do.
 *
 * @param most that the bed itself takes, at least 1
 */
export function nearestTo(
  kind: PlanKind,
  steps: readonly PlanStep[],
  roots: number,
  most: number,
  root: RootSize,
): Proposal {
  const enough = Math.ceil(roots / most);
  for (let beds = 1; beds < enough; beds += 1) {
    const found = lengthened(kind, steps, Math.ceil(roots / beds), root);
    if (found) return { beds, ...found };
  }
  return { beds: enough, steps, most_roots: most };
}
