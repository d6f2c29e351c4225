/**
 * What is expected beside a source that is told of.
 *
 * There the filter learns the wrong thing of the bed wherever the source is otherwise than its nominal growth, and more
 * every day: after a week as much as the source's own warmth. So beside it what is expected goes on as it does at the probe
 * that the source touches least.
 */
import type { ProbeExpectation } from './heat-types.js';

/** Warmth of the source from which a probe is taken to be beside it, °C. */
const TOUCHED_C = 0.1;

/** What a held expectation may be off by, added to its band as a standard deviation, °C: seen within two weeks (0.1 to 0.4). */
const HELD_C = 0.2;

/**
 * @param now by probe: what the filter makes of it after the step
 * @param before by probe: what was expected after the step before
 * @param touched_C by probe: how warm the source makes it by the filter, °C
 */
export function heldBeside(
  now: readonly ProbeExpectation[],
  before: readonly (ProbeExpectation | null)[],
  touched_C: readonly number[],
): ProbeExpectation[] {
  const least = touched_C.indexOf(Math.min(...touched_C));
  const [last, here] = [before[least], now[least]];
  if (!last || !here) return [...now];
  const moved_C = here.expected_C - last.expected_C;
  return now.map((own, probe) => {
    const held = before[probe];
    if (!held || probe === least || !((touched_C[probe] as number) > TOUCHED_C)) return own;
    return {
      expected_C: held.expected_C + moved_C,
      band_C: Math.hypot(own.band_C, 2 * HELD_C),
    };
  });
}
