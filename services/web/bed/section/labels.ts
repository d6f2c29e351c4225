/** Where the names of marks go in a drawing, so that none covers another. */

export interface Labelled {
  /** Middle of the mark, and half of what it takes, points. */
  readonly x: number;
  readonly y: number;
  readonly half: number;
  /** Of the label. */
  readonly width: number;
  readonly height: number;
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

const overlap = (one: Box, other: Box): number =>
  Math.max(0, Math.min(one.left + one.width, other.left + other.width) - Math.max(one.left, other.left)) *
  Math.max(0, Math.min(one.top + one.height, other.top + other.height) - Math.max(one.top, other.top));

const area = ({ width, height }: Box): number => width * height;

/** Directions that are tried, the best liked first: right, left, below, above, then the corners. */
const DIRECTIONS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
  [1, 1],
  [1, -1],
  [-1, 1],
  [-1, -1],
] as const;

/** Gaps between mark and label that are tried, points. */
const GAPS = [3, 18, 36, 54, 72] as const;

function placesFor({ x, y, half, width, height }: Labelled): Box[] {
  return GAPS.flatMap((gap) =>
    DIRECTIONS.map(([right, down]) => ({
      left: x + right * (half + gap + width / 2) - width / 2,
      top: y + down * (half + gap + height / 2) - height / 2,
      ...{ width, height },
    })),
  );
}

/** What a place covers of what is there already, and what of it lies outside; then how late it was tried. */
function costOf(place: Box, tried: number, taken: readonly Box[], whole: Box): number {
  const covered = taken.reduce((sum, box) => sum + overlap(place, box), 0);
  return covered + 4 * (area(place) - overlap(place, whole)) + tried;
}

const boxOf = ({ x, y, half }: Labelled): Box => ({
  ...{ left: x - half, top: y - half },
  ...{ width: 2 * half, height: 2 * half },
});

/**
 * @param others what else is not to be covered
 * @returns by mark, where its label goes; the same for the same marks
 */
export function placeLabels(marks: readonly Labelled[], whole: Box, others: readonly Box[] = []): Box[] {
  const taken = [...others, ...marks.map(boxOf)];
  return marks.map((mark) => {
    const places = placesFor(mark);
    const costs = places.map((place, tried) => costOf(place, tried, taken, whole));
    const best = places[costs.indexOf(Math.min(...costs))] as Box;
    taken.push(best);
    return best;
  });
}

/**
 * Marks that would lie on one another, moved apart to the sides.
 *
 * @param apart the least distance, points
 * @returns by mark, where it goes
 */
export function spread(
  marks: readonly { readonly x: number; readonly y: number }[],
  apart: number,
): { x: number; y: number }[] {
  const placed: { x: number; y: number }[] = [];
  for (const mark of marks) {
    let { x } = mark;
    const isNear = (one: { x: number; y: number }): boolean => Math.hypot(one.x - x, one.y - mark.y) < apart;
    while (placed.some(isNear)) x += apart / 2;
    placed.push({ x, y: mark.y });
  }
  return placed;
}
