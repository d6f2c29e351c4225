/** How a bed's roots lie in it: closer here and further apart there. */
import { eachCell, type Grid, middle } from './grid.js';
import { normal, type Random } from './random.js';

/** Waves that the density is made of, and how long they are, m. Judgement: some roots' length to the whole bed. */
const WAVES = 6;
const LENGTH_m = [0.35, 1.2] as const;

/** Of roots by place, 1 on the average. */
export type Density = (x_m: number, y_m: number, z_m: number) => number;

export const EVEN: Density = () => 1;

/**
 * A smooth random density.
 *
 * @param most how far it departs from 1 at the most, as a share
 */
export function unevenDensity(random: Random, most: number): Density {
  const waves = Array.from({ length: WAVES }, () => {
    const direction = [normal(random), normal(random), normal(random)] as const;
    const length_m = LENGTH_m[0] + (LENGTH_m[1] - LENGTH_m[0]) * random();
    const turns = (2 * Math.PI) / (length_m * Math.hypot(...direction));
    return {
      along: direction.map((part) => part * turns) as [number, number, number],
      phase: 2 * Math.PI * random(),
    };
  });
  // A sum of so many waves of height 1 has a standard deviation of the root of half their number; two of those are rare.
  const height = most / (2 * Math.sqrt(WAVES / 2));
  return (x_m, y_m, z_m) => {
    const sum = waves.reduce(
      (so_far, { along, phase }) =>
        so_far + Math.sin(along[0] * x_m + along[1] * y_m + along[2] * z_m + phase),
      0,
    );
    return 1 + Math.min(most, Math.max(-most, height * sum));
  };
}

/**
 * Mass of roots in each cell, kg: together as much as if they lay evenly.
 *
 * @param kg_m3 mean over the bed
 */
export function rootsIn(grid: Grid, inBed: Uint8Array, kg_m3: number, density: Density): Float64Array {
  const weighed = new Float64Array(grid.count);
  let volume_m3 = 0;
  let weighed_m3 = 0;
  eachCell(grid, (cell, i, j, k) => {
    if (inBed[cell] !== 1) return;
    const own_m3 = grid.volume[cell] as number;
    const share = density(middle(grid.wallsX, i), middle(grid.wallsY, j), middle(grid.wallsZ, k));
    weighed[cell] = share * own_m3;
    volume_m3 += own_m3;
    weighed_m3 += share * own_m3;
  });
  const mean = volume_m3 / weighed_m3;
  return weighed.map((volume) => kg_m3 * mean * volume);
}
