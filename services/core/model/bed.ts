/**
 * The shape of a bed: steps from the top down, each a block of sand, in centimetres. The origin is the
 * north-west corner of the opening; x runs along the length, y along the width, depth downwards.
 */

export interface Step {
  readonly length: number;
  readonly width: number;
  readonly height: number;
  /** The step's own corner; centred under the step above where it is not given. */
  readonly x?: number | undefined;
  readonly y?: number | undefined;
}

/** A step with its place: `left`..`right` along x, `near`..`far` along y, `top`..`bottom` in depth, all in cm. */
export interface Block {
  readonly left: number;
  readonly right: number;
  readonly near: number;
  readonly far: number;
  readonly top: number;
  readonly bottom: number;
}

/** Places every step, the first with its corner at the origin. */
export function blocksOf(steps: readonly Step[]): Block[] {
  const blocks: Block[] = [];
  let above: Block | undefined;
  for (const step of steps) {
    const left: number = step.x ?? (above ? (above.left + above.right - step.length) / 2 : 0);
    const near: number = step.y ?? (above ? (above.near + above.far - step.width) / 2 : 0);
    const top: number = above?.bottom ?? 0;
    above = { left, right: left + step.length, near, far: near + step.width, top, bottom: top + step.height };
    blocks.push(above);
  }
  return blocks;
}

/** Whether a point lies in the sand, walls and floor included. */
export function holdsPoint(blocks: readonly Block[], x: number, y: number, depth: number): boolean {
  return blocks.some(
    (block) =>
      x >= block.left &&
      x <= block.right &&
      y >= block.near &&
      y <= block.far &&
      depth >= block.top &&
      depth <= block.bottom,
  );
}

/** Volume of all blocks, in litres. */
export function volume_L(blocks: readonly Block[]): number {
  const volumes = blocks.map(
    (block) => (block.right - block.left) * (block.far - block.near) * (block.bottom - block.top),
  );
  return volumes.reduce((sum, volume) => sum + volume, 0) / 1000;
}
