/** What is sent of a filling: the draft, read and held against the bed. */
import { type Block, holdsPoint } from '../../../core/model/bed.js';
import { ifTyped, Typed } from '../../parts/typed.js';
import { say } from '../../words/say.js';
import type { CourseTyped, FillDraft, PlaceTyped } from './draft.js';

const ROOTS = { least: 1, most: 1_000_000, whole: true };
const MASS_kg = { least: 0.001, most: 1_000_000 };
const PLACE_cm = { least: 0, most: 10_000 };

/**
 * The body of `POST /api/beds/{bed}/fillings`.
 *
 * @param blocks of the bed, cm
 * @throws NotAsExpected with what is wrong beside each field
 */
export function fillingBody(draft: FillDraft, by: string, blocks: readonly Block[]): object {
  const typed = new Typed();
  const { id, at, courses, mass, cultivar, field, lot, note, places, supersedes } = draft;
  const mass_kg = typed.maybe('mass_kg', mass, MASS_kg);
  const body = {
    id,
    courses: courses.map((course, index) => courseOf(typed, course, index)),
    ...(mass_kg === undefined ? {} : { mass_kg }),
    ...{ ...ifTyped('cultivar', cultivar), ...ifTyped('field', field), ...ifTyped('lot', lot) },
    ...ifTyped('note', note),
    probes: places.map((place, index) => placeOf(typed, place, index, blocks)),
    at: typed.time('at', at),
    by: typed.text('by', by),
    ...(supersedes === undefined ? {} : { supersedes }),
  };
  typed.done();
  return body;
}

function courseOf(typed: Typed, { roots, mass }: CourseTyped, index: number) {
  const mass_kg = typed.maybe(`courses/${index}/mass_kg`, mass, MASS_kg);
  return {
    roots: typed.number(`courses/${index}/roots`, roots, ROOTS),
    ...(mass_kg === undefined ? {} : { mass_kg }),
  };
}

function placeOf(typed: Typed, { probe, x, y, depth }: PlaceTyped, index: number, blocks: readonly Block[]) {
  const at = (key: string): string => `probes/${index}/${key}`;
  const place = {
    x: typed.number(at('x'), x, PLACE_cm),
    y: typed.number(at('y'), y, PLACE_cm),
    depth: typed.number(at('depth'), depth, PLACE_cm),
  };
  const isTyped = [place.x, place.y, place.depth].every(Number.isFinite);
  if (isTyped && !holdsPoint(blocks, place.x, place.y, place.depth))
    typed.wrong(at('depth'), say('fill.outside', { probe }));
  return { probe, ...place };
}
