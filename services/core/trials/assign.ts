/**
 * Which bed gets which treatment, by chance, so that it can be drawn again: from the same beds, treatments and seed the same
 * comes out, in whatever order the beds are named. Beds are put in the order of their ids, blocks in that of their names;
 * each treatment is written down as often as it is given, and the list is shuffled (pcg32.ts).
 */
import { SandlarderError } from '../errors.js';
import { chanceOf, type Pcg32 } from './pcg32.js';

export interface BedInTrial {
  readonly bed: string;
  readonly block?: string | undefined;
}

export interface Assigned extends BedInTrial {
  readonly treatment: string;
}

export const ASSIGNED_BY = ['complete', 'blocks'] as const;
export type AssignedBy = (typeof ASSIGNED_BY)[number];

/** Said wherever a seed is shown. */
export const HOW_ASSIGNED =
  "PCG32 (M. E. O'Neill 2014, XSH-RR, 64 bits of state, stream 54) with the seed as initial state; beds in order of their ids, blocks in order of their names, treatments in the order given, each as often as it is given; shuffled from the last place down.";

const inOrder = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);

/**
 * Draws treatments.
 *
 * @throws SandlarderError CONFLICT for a bed or a treatment that comes twice, TOO_FEW_SAMPLES where beds cannot be shared
 *   out evenly
 */
export function assignTreatments(
  beds: readonly BedInTrial[],
  treatments: readonly string[],
  by: AssignedBy,
  seed: number,
): Assigned[] {
  requireOnce(
    'beds',
    beds.map(({ bed }) => bed),
  );
  requireOnce('treatments', treatments);
  if (!(treatments.length >= 2))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `treatments: expected two or more, got ${treatments.length}`,
    );
  const chance = chanceOf(seed);
  const sorted = [...beds].sort((one, other) => inOrder(one.bed, other.bed));
  if (by === 'complete') return shared(sorted, treatments, chance, 'beds');
  const strayed = sorted.find(({ block }) => block === undefined);
  if (strayed)
    throw new SandlarderError('TOO_FEW_SAMPLES', `bed "${strayed.bed}": expected its block, got none`);
  const blocks = [...new Set(sorted.map(({ block }) => block as string))].sort(inOrder);
  return blocks
    .flatMap((block) =>
      shared(
        sorted.filter((one) => one.block === block),
        treatments,
        chance,
        `block "${block}"`,
      ),
    )
    .sort((one, other) => inOrder(one.bed, other.bed));
}

function shared(
  beds: readonly BedInTrial[],
  treatments: readonly string[],
  chance: Pcg32,
  name: string,
): Assigned[] {
  const times = beds.length / treatments.length;
  if (!(times >= 1 && Number.isInteger(times)))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `${name}: expected a multiple of the ${treatments.length} treatments, so that each is given as often, got ${beds.length}`,
    );
  const drawn = chance.shuffled(
    treatments.flatMap((treatment) => Array.from({ length: times }, () => treatment)),
  );
  return beds.map((bed, at) => ({ ...bed, treatment: drawn[at] as string }));
}

function requireOnce(name: string, items: readonly string[]): void {
  const twice = items.find((item, at) => items.indexOf(item) !== at);
  if (twice !== undefined)
    throw new SandlarderError('CONFLICT', `${name}: expected each once, got "${twice}" twice`);
}
