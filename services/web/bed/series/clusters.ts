/** Marks on a line that is as wide as the plots, joined where they would lie on one another. */
import type { EventAnswer } from '../../api/types/series.js';

interface Placed {
  readonly event: EventAnswer;
  /** Where it happened, px from the left edge of the plots. */
  readonly x: number;
}

export interface Cluster {
  /** The newest first. */
  readonly events: readonly EventAnswer[];
  /** Where the newest happened, px. */
  readonly x: number;
  /** Left edge of the mark, px: it is kept within the line. */
  readonly left: number;
  /** From the left edge to that of the next mark, or to the end of the line, px. */
  readonly room: number;
}

/** @param mark least width of a mark, px */
export function clusters(
  placed: readonly Placed[],
  { width, mark }: { readonly width: number; readonly mark: number },
): Cluster[] {
  const leftOf = (x: number): number => Math.min(Math.max(0, x - mark / 2), Math.max(0, width - mark));
  const groups: { left: number; placed: Placed[] }[] = [];
  for (const one of placed.filter(({ x }) => x >= 0 && x <= width).sort((a, b) => a.x - b.x)) {
    const last = groups.at(-1);
    if (last && leftOf(one.x) < last.left + mark) last.placed.push(one);
    else groups.push({ left: leftOf(one.x), placed: [one] });
  }
  return groups.map(({ left, placed: group }, at) => ({
    left,
    x: group.at(-1)?.x ?? left,
    room: (groups[at + 1]?.left ?? width) - left,
    events: group.map(({ event }) => event).reverse(),
  }));
}
