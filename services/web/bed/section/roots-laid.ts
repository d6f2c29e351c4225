/** Courses of roots for the drawing: as they were written down when the bed was filled, else as so many would lie. */
import { coursesThatFit, laid } from '../../../core/keeping/courses.js';
import { gapBeside_cm, ROOT_MASS_kg, type RootSize, sizeOfRoot } from '../../../core/keeping/root-size.js';
import { type Block, blocksOf } from '../../../core/model/bed.js';
import type { Bed } from '../../api/types/bed.js';
import type { Filling } from '../../api/types/filling.js';
import type { View } from './views.js';
import { reachOf } from './views.js';

/** Roots side by side in one course; lengths in cm. */
export interface Laid {
  /** Depth of the middles of its roots. */
  readonly depth: number;
  readonly block: Block;
  readonly roots: number;
}

export interface RootsLaid {
  readonly size: RootSize;
  readonly courses: readonly Laid[];
  /** Whether somebody wrote down how many roots went into each course; their depths are worked out in any case. */
  readonly written: boolean;
}

/** Undefined where nobody said how many roots there are, or where they are no size that roots have. */
export function rootsLaid(bed: Bed, filling: Filling | undefined): RootsLaid | undefined {
  const size = sizeOf(bed);
  if (!size) return undefined;
  const blocks = blocksOf(bed.steps);
  const written = (filling?.courses.length ?? 0) > 0;
  const courses = filling && written ? evenly(blocks, filling) : fitted(bed, blocks, size);
  return courses.length > 0 ? { size, courses, written } : undefined;
}

function sizeOf({ roots }: Bed): RootSize | undefined {
  if (!roots?.count) return undefined;
  if (roots.mass_kg === undefined) return sizeOfRoot();
  const mass_kg = roots.mass_kg / roots.count;
  return mass_kg >= ROOT_MASS_kg.low && mass_kg <= ROOT_MASS_kg.high ? sizeOfRoot(mass_kg) : undefined;
}

const blockAt = (blocks: readonly Block[], depth: number): Block =>
  (blocks.find(({ bottom }) => depth < bottom) ?? blocks.at(-1)) as Block;

/** From the floor up, as they are laid. */
function evenly(blocks: readonly Block[], { courses }: Filling): Laid[] {
  const floor = blocks.at(-1)?.bottom ?? 0;
  return courses.map(({ roots }, index) => {
    const depth = floor * (1 - (index + 0.5) / courses.length);
    return { depth, block: blockAt(blocks, depth), roots };
  });
}

const fitted = ({ steps, roots }: Bed, blocks: readonly Block[], size: RootSize): Laid[] =>
  laid(coursesThatFit(steps, size), roots?.count ?? 0).map(({ top_cm, bottom_cm, step, roots: own }) => ({
    depth: (top_cm + bottom_cm) / 2,
    block: blocks[step] as Block,
    roots: own,
  }));

/** An ellipse of the drawing, cm. */
export interface RootDrawn {
  readonly right: number;
  readonly down: number;
  readonly halfRight: number;
  readonly halfDown: number;
}

/** The roots that a cut shows: lengthwise along the bed, from their ends across it. */
export function rootsIn({ size, courses }: RootsLaid, view: View): RootDrawn[] {
  const gap = gapBeside_cm(size);
  const [own, other] =
    view.name === 'along' ? [size.length_cm, size.width_cm] : [size.width_cm, size.length_cm];
  return courses.flatMap(({ depth, block, roots }) => {
    const [low, high] = reachOf(block, view.right);
    const [front, back] = reachOf(block, view.through);
    const beside = Math.max(1, Math.floor((high - low) / (own + gap)));
    const rows = Math.max(1, Math.floor((back - front) / (other + gap)));
    const seen = Math.min(beside, Math.ceil(roots / rows));
    return Array.from({ length: seen }, (_, index) => ({
      right: low + ((index + 0.5) * (high - low)) / beside,
      ...{ down: depth, halfRight: own / 2, halfDown: size.width_cm / 2 },
    }));
  });
}
