/** How deep a place lies in a bed, for somebody who knows how deep the bed is. */
import { TOUCHING_cm } from './length-in-words.js';

/** Share of the bed's depth up to which the words hold: judgement, a fifth is about what an eye tells apart. */
const SHARES: readonly (readonly [number, string])[] = [
  [0.2, 'near the top'],
  [0.4, 'a third down'],
  [0.6, 'half-way down'],
];

/**
 * `near the top`, `a third down`, `half-way down`, `deep down` or `on the floor`; a place that lies outside the sand is
 * said to.
 *
 * @param depth_cm from the top of the sand
 * @param floor_cm depth of the floor of the whole bed, positive
 */
export function depthInWords(depth_cm: number, floor_cm: number): string {
  if (depth_cm < -TOUCHING_cm) return 'above the sand';
  if (depth_cm > floor_cm + TOUCHING_cm) return 'below the floor';
  const share = depth_cm / floor_cm;
  if (share > 0.5 && floor_cm - depth_cm <= TOUCHING_cm) return 'on the floor';
  return SHARES.find(([upTo]) => share < upTo)?.[1] ?? 'deep down';
}
