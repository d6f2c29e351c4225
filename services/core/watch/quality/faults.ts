/**
 * Faults that a technician must look at: each established by lasting, and over only when good readings have lasted.
 */
import type { FlaggedQuantity } from '../flag.js';
import type { ProbeHour } from '../watch.js';
import { QUALITY } from './limits.js';
import type { FaultKind, QualityState } from './state.js';

/**
 * - `stuck`: the same value for so long that it is none
 * - `sensor-code`: codes or impossible values, again and again
 * - `noisy`: scatters far more than it did, or spikes again and again
 * - `dead-humidity`: stays at the end of its range without measuring
 * - `clock`: its times cannot be trusted
 * - `silent`: sends nothing while others of its bed do
 */
export interface FaultVerdict {
  readonly kind: FaultKind;
  /** Which sensor; absent where it is the probe as a whole. */
  readonly quantity?: FlaggedQuantity;
  /** When it began, ms. */
  readonly since: number;
  /** End of the hour in which it was found to be over, ms; told once. */
  readonly until?: number;
}

/** What an hour says of one fault. */
export interface Finding {
  readonly kind: FaultKind;
  readonly quantity: FlaggedQuantity | null;
  /** Whether the hour shows it: only then does it begin, and then it is not over. */
  readonly shown: boolean;
  /** When it began, ms, where it has lasted long enough to be told; undefined otherwise. */
  readonly since: number | undefined;
}

type Fault = QualityState['faults'][number];

const verdictOf = ([kind, quantity, since]: Fault, until?: number): FaultVerdict => ({
  kind,
  ...(quantity !== null && { quantity }),
  since,
  ...(until !== undefined && { until }),
});

/**
 * Takes what an hour found.
 *
 * @param usable what of the hour can be used: a sensor without a usable value does not become better
 * @returns what stands, and what is over now
 */
export function judgeFaults(
  state: QualityState,
  findings: readonly Finding[],
  hourEnd: number,
  usable: ProbeHour,
): FaultVerdict[] {
  const standing: Fault[] = [];
  const verdicts: FaultVerdict[] = [];
  for (const finding of findings) {
    const fault = faultAfter(state.faults, finding, usable);
    if (!fault) continue;
    const [kind, , , good_h] = fault;
    const over = good_h >= QUALITY.release_h[kind];
    if (!over) standing.push(fault);
    verdicts.push(verdictOf(fault, over ? hourEnd : undefined));
  }
  state.faults = standing;
  return verdicts;
}

function faultAfter(before: readonly Fault[], finding: Finding, usable: ProbeHour): Fault | undefined {
  const { kind, quantity, shown, since } = finding;
  const fault = before.find((one) => one[0] === kind && one[1] === quantity);
  const measured = quantity === null ? usable.temperature || usable.humidity : usable[quantity];
  if (fault) return [kind, quantity, fault[2], shown ? 0 : fault[3] + (measured ? 1 : 0)];
  return since === undefined || !shown ? undefined : [kind, quantity, since, 0];
}
