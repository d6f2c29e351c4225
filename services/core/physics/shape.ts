/** The three bodies in which heat flows along one coordinate, and what the laws of this folder share about them. */

/**
 * - `slab` between two faces; its radius is half its thickness
 * - `cylinder` without ends
 * - `sphere`
 */
export type Shape = 'slab' | 'cylinder' | 'sphere';

/** How many coordinates of space the body is round in: volume over surface is radius over this. */
export const DIMENSIONS: Readonly<Record<Shape, number>> = { slab: 1, cylinder: 2, sphere: 3 };
