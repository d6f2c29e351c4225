/** Lengths as people show them with their own arm, for somebody without a tape measure. */

/**
 * Adult anthropometry, rounded, cm (from memory): breadth of a hand with its thumb 10; span from thumb to little
 * finger 20; elbow to finger tips 42 to 48; shoulder to finger tips 65 to 75. Sums of two where the gap would be
 * wide: no length up to 150 cm is farther than 12.5 cm from its words.
 */
const ARM_LENGTHS: readonly (readonly [number, string])[] = [
  [10, 'a hand'],
  [20, 'a span'],
  [30, 'a span and a hand'],
  [45, 'a forearm'],
  [70, 'an arm'],
  [90, 'two forearms'],
  [115, 'an arm and a forearm'],
  [140, 'two arms'],
];

/** From here on arms are no measure any more: half metres are. */
const LONGEST_IN_ARMS_cm = 150;

/** Under this a place is at a wall, or at the top: half a hand. */
export const TOUCHING_cm = 5;

/**
 * The nearest length that an arm shows, or half metres: `a forearm`, `2.5 m`. Of two that are equally near the longer
 * one, since whoever takes a depth for shallower than it is stops digging too early.
 *
 * @param length_cm not negative; a length under `TOUCHING_cm` is better said as a touch
 */
export function lengthInWords(length_cm: number): string {
  if (!(length_cm <= LONGEST_IN_ARMS_cm)) return `${Math.round(length_cm / 50) / 2} m`;
  let [nearest = Number.NaN, words = ''] = ARM_LENGTHS[0] ?? [];
  for (const [candidate, candidateWords] of ARM_LENGTHS)
    if (Math.abs(candidate - length_cm) <= Math.abs(nearest - length_cm))
      [nearest, words] = [candidate, candidateWords];
  return words;
}
