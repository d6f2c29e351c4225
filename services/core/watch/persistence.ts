/**
 * A condition that must hold before it is raised, and be gone for a while before it clears, so that it does not
 * flutter. An hour without data leaves it as it is.
 */
import { PARAMETERS } from './parameters.js';

export interface Persistence {
  readonly open: boolean;
  /** Hours above the threshold, since it was last below it for longer than a dip. */
  readonly above_h: number;
  /** Hours in a row at or below the threshold. */
  readonly dip_h: number;
  /** Hours in a row below the clearing level. */
  readonly below_h: number;
  /** Hours in a row without data. */
  readonly gap_h: number;
}

/** Where an hour's value lies. */
export interface Against {
  /** At or above the threshold. */
  readonly above: boolean;
  /** Below the level at which the condition clears. */
  readonly below: boolean;
}

export const AT_REST: Persistence = { open: false, above_h: 0, dip_h: 0, below_h: 0, gap_h: 0 };

/** Whether the condition is raised or on its way to be. */
export const isDeveloping = (state: Persistence): boolean => state.open || state.above_h > 0;

function withoutData(state: Persistence): Persistence {
  const gap_h = state.gap_h + 1;
  if (gap_h <= PARAMETERS.gap_h) return { ...state, gap_h };
  return { ...AT_REST, open: state.open, gap_h };
}

/**
 * The condition after one more hour.
 *
 * @param against undefined for an hour without data
 * @param hold_h hours above the threshold after which it is raised
 */
export function nextHour(state: Persistence, against: Against | undefined, hold_h: number): Persistence {
  if (!against) return withoutData(state);
  const dip_h = against.above ? 0 : state.dip_h + 1;
  const counted_h = against.above ? state.above_h + 1 : state.above_h;
  const above_h = dip_h > PARAMETERS.dip_h ? 0 : counted_h;
  const below_h = against.below ? state.below_h + 1 : 0;
  if (state.open && below_h >= PARAMETERS.clear_h) return AT_REST;
  return { open: state.open || above_h >= hold_h, above_h, dip_h, below_h, gap_h: 0 };
}
