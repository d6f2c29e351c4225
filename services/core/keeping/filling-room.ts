/** Whether a bed has room for the roots that are said to have gone into it: a digit too many is soon written. */
import { blocksOf, type Step, volume_L } from '../model/bed.js';
import { type Filling, massFilled_kg, rootsFilled } from '../model/filling.js';
import { figureOf } from './plan-figures.js';

/** Mass of a litre of roots heaped without sand, kg. From memory: 0.60 to 0.68. */
const HEAP_kg_per_L = 0.64;

/**
 * What to ask whoever filled it; undefined where the roots have room.
 *
 * @param filling its roots count by their mass, or as usual ones where they were not weighed
 * @param steps of the bed
 */
export function roomNote(filling: Filling, steps: readonly Step[]): string | undefined {
  const roots = rootsFilled(filling);
  const weighed_kg = massFilled_kg(filling);
  const mass_kg = weighed_kg ?? roots * figureOf('root_kg');
  const holds_L = volume_L(blocksOf(steps));
  if (mass_kg <= holds_L * HEAP_kg_per_L) return undefined;
  const about = weighed_kg === undefined ? 'about ' : '';
  return `${roots} roots of ${about}${Math.round(mass_kg)} kg do not go into ${Math.round(holds_L)} L, not even without sand (from memory: ${HEAP_kg_per_L} kg of roots in a litre): look whether the count is right; --supersedes ${filling.id} puts another filling in its place`;
}
