/** A bed in its surroundings as a block of cells: the sand of the bed, the ground around a pit, and what is outside. */
import { type Block, blocksOf, volume_L } from '../services/core/model/bed.js';
import { Conduction, type OuterFace } from './conduction.js';
import { cellAt, eachCell, type Grid, makeGrid, middle, wallsAround, width } from './grid.js';
import type { Material } from './materials.js';
import { type Density, EVEN, rootsIn } from './roots.js';
import type { SimulatedBed } from './scenario.js';
import type { Unknowns } from './unknowns.js';

/** What an outer face touches. */
export const OUTSIDE = { sheltered: 0, open: 1, deep: 2 } as const;

/** Ground around and below a pit that is looked at, and how far its thatch reaches beyond it, m. */
const AROUND_m = 0.9;
const BELOW_m = 1.4;
const EAVES_m = 0.5;

/** Width of a cell in the bed, and its height, m. */
const CELL_m = 0.075;
const LAYER_m = 0.05;

export interface BedModel {
  readonly conduction: Conduction;
  readonly outer: readonly OuterFace[];
  /** 1 where a cell holds sand and roots of the bed. */
  readonly inBed: Uint8Array;
  /** Mass of roots in each cell, kg. */
  readonly roots_kg: Float64Array;
}

/** @param density of roots by place: even where none is given */
export function buildBed(
  bed: SimulatedBed,
  { sand, ground, films }: Unknowns,
  density: Density = EVEN,
): BedModel {
  const blocks = blocksOf(bed.steps);
  const grid = gridOf(bed.kind, blocks);
  const conduction = new Conduction(grid);
  const inBed = new Uint8Array(grid.count);
  eachCell(grid, (cell, i, j, k) => {
    const [x, y, z] = [middle(grid.wallsX, i), middle(grid.wallsY, j), middle(grid.wallsZ, k)];
    inBed[cell] = blocks.some((block) => holds(block, x, y, z)) ? 1 : 0;
    setMaterial(conduction, cell, inBed[cell] === 1 ? sand : ground);
  });
  const kg_m3 = bed.roots.mass_kg / (volume_L(blocks) / 1000);
  const roots_kg = rootsIn(grid, inBed, kg_m3, density);
  const outer = bed.kind === 'box' ? boxFaces(conduction, films) : pitFaces(conduction, blocks, films);
  conduction.prepare(outer);
  return { conduction, outer, inBed, roots_kg };
}

export function setMaterial(
  conduction: Conduction,
  cell: number,
  { conductivity, capacity }: Material,
): void {
  conduction.conductivity[cell] = conductivity;
  conduction.capacity[cell] = capacity;
}

const holds = ({ left, right, near, far, top, bottom }: Block, x: number, y: number, z: number): boolean =>
  x * 100 > left && x * 100 < right && y * 100 > near && y * 100 < far && z * 100 > top && z * 100 < bottom;

function gridOf(kind: SimulatedBed['kind'], blocks: readonly Block[]): Grid {
  const [left, right] = [Math.min(...blocks.map((b) => b.left)), Math.max(...blocks.map((b) => b.right))];
  const [near, far] = [Math.min(...blocks.map((b) => b.near)), Math.max(...blocks.map((b) => b.far))];
  const bottom = blocks.at(-1)?.bottom ?? 0;
  const [around, below] = kind === 'box' ? [0, 0] : [AROUND_m, BELOW_m];
  return makeGrid(
    wallsAround(left / 100, right / 100, CELL_m, [around, around]),
    wallsAround(near / 100, far / 100, CELL_m, [around, around]),
    wallsAround(0, bottom / 100, LAYER_m, [0, below]),
  );
}

/** Middle of the cell to its face and through what lies on it, W/K. */
const through = (area_m2: number, half_m: number, conductivity: number, outside_W_m2K: number): number =>
  area_m2 / (half_m / conductivity + 1 / outside_W_m2K);

function pitFaces(
  { grid, conductivity }: Conduction,
  blocks: readonly Block[],
  { still, open }: Unknowns['films'],
): OuterFace[] {
  const faces: OuterFace[] = [];
  const opening = blocks[0] as Block;
  eachCell(grid, (cell, i, j, k) => {
    const area = width(grid.wallsX, i) * width(grid.wallsY, j);
    const half = width(grid.wallsZ, k) / 2;
    if (k === 0) {
      const [x, y] = [middle(grid.wallsX, i), middle(grid.wallsY, j)];
      const beyond = Math.max(
        opening.left / 100 - x,
        x - opening.right / 100,
        opening.near / 100 - y,
        y - opening.far / 100,
      );
      const sheltered = beyond < EAVES_m;
      const film = sheltered ? still : open;
      const touches = sheltered ? OUTSIDE.sheltered : OUTSIDE.open;
      faces.push({ cell, conductance_W_K: through(area, half, conductivity[cell] as number, film), touches });
    }
    if (k === grid.nz - 1)
      faces.push({
        cell,
        conductance_W_K: ((conductivity[cell] as number) * area) / half,
        touches: OUTSIDE.deep,
      });
  });
  return faces;
}

function boxFaces({ grid, conductivity }: Conduction, { still, boards }: Unknowns['films']): OuterFace[] {
  const faces: OuterFace[] = [];
  const { nx, ny, nz } = grid;
  const add = (i: number, j: number, k: number, area: number, half: number, film: number): void => {
    const cell = cellAt(grid, i, j, k);
    const conductance_W_K = through(area, half, conductivity[cell] as number, film);
    faces.push({ cell, conductance_W_K, touches: OUTSIDE.sheltered });
  };
  eachCell(grid, (_cell, i, j, k) => {
    const [dx, dy, dz] = [width(grid.wallsX, i), width(grid.wallsY, j), width(grid.wallsZ, k)];
    if (i === 0 || i === nx - 1) add(i, j, k, dy * dz, dx / 2, boards);
    if (j === 0 || j === ny - 1) add(i, j, k, dx * dz, dy / 2, boards);
    if (k === 0) add(i, j, k, dx * dy, dz / 2, still);
    if (k === nz - 1) add(i, j, k, dx * dy, dz / 2, boards);
  });
  return faces;
}
