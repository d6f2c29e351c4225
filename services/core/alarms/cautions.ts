/** What a keeper must know before opening a bed, eating from it, or leaving it to its probes. */
import type { Action, AlarmKind } from '../model/alarm.js';

/**
 * Moulded roots hold furanoterpenoids, of which 4-ipomeanol kills cattle (Merck Veterinary Manual, rev. 2022).
 * Parts without visible mould can still injure lung and kidney, and six weeks of ensiling make it no safer
 * (Thibodeau et al. 2004, J. Agric. Food Chem. 52, 380-384). That cooking does not help is only weakly sourced:
 * the caution is on the safe side.
 */
export const FOOD_CAUTION =
  'Throw away every mouldy, bitter or rotten root, the whole root: do not eat it and do not feed it to animals, ' +
  'not even trimmed, cooked or ensiled. Bury it away from the store.';

/** Common practice in digging, no source. */
export const DIGGING_CAUTION =
  'Trenches can cave in: keep loads and people back from the edge, and do not go into a pit deeper than your ' +
  'waist alone.';

/** Common practice, no source. */
export const LIFTING_CAUTION =
  'Lift sand and roots close to the body, with straight back, by two where it is heavy, and take turns.';

/** Computed from conduction in dry sand: a root that rots alone warms the sand too little beyond that distance. */
export const UNSEEN_CAUTION =
  'What no probe sees: a single rotting root further than 10 to 15 cm from every probe. So the two-weekly look by ' +
  'hand stays, whatever the probes say.';

/** The same for one line. */
export const UNSEEN_IN_SHORT = 'No probe sees a single root that rots 15 cm away.';

const WITHOUT_ROOTS: readonly AlarmKind[] = ['probe-fault', 'probe-silent'];

/** The cautions that belong to an alarm, in order. */
export function cautionsFor(kind: AlarmKind, action: Action): string[] {
  const digs = action === 'unpack' || action === 'check';
  return [
    ...(kind === 'inspection-due' ? [UNSEEN_CAUTION] : []),
    ...(WITHOUT_ROOTS.includes(kind) ? [] : [FOOD_CAUTION]),
    ...(digs ? [DIGGING_CAUTION] : []),
  ];
}
