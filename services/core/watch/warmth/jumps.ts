/**
 * Changes within an hour that no source can make: somebody opened the bed, moved a probe, or water came.
 *
 * A change is held against those of the same probe in the last days; never against what was expected, or a strong
 * source would be taken for a jump.
 */

/** Hours that a probe's usual changes are taken from, and how many there must be. */
const USUAL_h = 96;
const NEEDED_h = 24;
/** A jump is so many times what only one hour in twenty exceeds, and at least so much, °C. Judgement. */
const TIMES = 2.5;
const LEAST_C = 0.35;

export interface JumpState {
  /** °C; null before the first, or where the hour before had none. */
  last_C: number | null;
  /** Usual changes from hour to hour, oldest first, hundredths of °C. */
  readonly usual: number[];
}

export const newJumps = (): JumpState => ({ last_C: null, usual: [] });

function exceededRarely(usual: readonly number[]): number {
  const sorted = [...usual].sort((one, other) => one - other);
  return (sorted[Math.floor(sorted.length * 0.95)] ?? 0) / 100;
}

/** Takes the mean of an hour; tells whether it is a jump from the hour before. */
export function takeHour(state: JumpState, mean_C: number | undefined): boolean {
  const last = state.last_C;
  state.last_C = mean_C ?? null;
  if (mean_C === undefined || last === null) return false;
  const change = Math.abs(mean_C - last);
  if (state.usual.length >= NEEDED_h && change > LEAST_C && change > TIMES * exceededRarely(state.usual))
    return true;
  state.usual.push(Math.round(change * 100));
  if (state.usual.length > USUAL_h) state.usual.shift();
  return false;
}
