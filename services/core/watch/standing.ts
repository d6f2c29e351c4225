import { BASIS_IN_WORDS } from './evidence.js';
import { PARAMETERS } from './parameters.js';
import type { WatchState } from './state.js';
import type { Standing } from './watch.js';

const LEARNING_days = PARAMETERS.settling_days + PARAMETERS.baselineLeast_days;

/** How the bed stands after its last hour, in words. */
export function standingOf({ basis }: WatchState): Standing {
  if (basis !== null) return { learning: false, basis: BASIS_IN_WORDS[basis] };
  return {
    learning: true,
    basis: `learning: warmth is judged from about ${LEARNING_days} days after filling or repacking on; damp is judged already`,
  };
}
