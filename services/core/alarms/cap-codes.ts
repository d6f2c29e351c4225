/**
 * What an alarm is called in the closed lists of OASIS Common Alerting Protocol 1.2 (section 3.2.2).
 *
 * The lists were made for the public and for hazards to life. Here the reader is whoever looks after a store of
 * roots, so the upper ends are left to those who need them: nothing here is `Extreme`, or `Public`.
 */
import type { Action, AlarmKind, Priority } from '../model/alarm.js';
import type { AlarmEvent } from './text.js';

export type CapMessageType = 'Alert' | 'Update' | 'Cancel';
export type CapResponse = 'Execute' | 'Assess' | 'AllClear' | 'None';
export type CapUrgency = 'Immediate' | 'Expected' | 'Future' | 'Past' | 'Unknown';
export type CapSeverity = 'Severe' | 'Moderate' | 'Minor';
export type CapCertainty = 'Observed' | 'Likely' | 'Possible' | 'Unlikely';

/**
 * `Cancel` takes a message back as if it had not been sent: only a withdrawal does that. An alarm that is over was
 * right, so its end is an `Update` that gives the all-clear.
 */
export const MESSAGE_TYPES: Readonly<Record<AlarmEvent, CapMessageType>> = {
  raised: 'Alert',
  refined: 'Update',
  cleared: 'Update',
  withdrawn: 'Cancel',
};

/** `Env` is pollution and the environment at large, `Health` is people's: neither is a pit of roots. */
export const CATEGORY = 'Other';

const isOver = (event: AlarmEvent): boolean => event === 'cleared' || event === 'withdrawn';

interface Rated {
  readonly kind: AlarmKind;
  readonly action: Action;
  readonly priority: Priority;
}

const RESPONSES: Readonly<Record<Action, CapResponse>> = {
  unpack: 'Execute',
  // The specification keeps Assess from the public: the reader here has a bed to go and judge.
  check: 'Assess',
  service: 'Execute',
  none: 'None',
};

export function responseOf(event: AlarmEvent, { action }: Rated): CapResponse {
  return isOver(event) ? 'AllClear' : RESPONSES[action];
}

/**
 * - to unpack is for today: `Immediate` (at once) where the priority is high, else `Expected` (soon)
 * - to check or to service waits for the next visit: `Future`
 * - nothing to do: `Unknown`, as the list has no word for it
 */
export function urgencyOf(event: AlarmEvent, { action, priority }: Rated): CapUrgency {
  if (isOver(event)) return 'Past';
  if (action === 'unpack') return priority === 'high' ? 'Immediate' : 'Expected';
  return action === 'none' ? 'Unknown' : 'Future';
}

const SEVERITIES: Readonly<Record<Priority, CapSeverity>> = {
  high: 'Severe',
  medium: 'Moderate',
  low: 'Minor',
};

/** By priority where the roots are at stake; a probe to see to, or nothing to do, threatens no root: `Minor`. */
export function severityOf({ action, priority }: Rated): CapSeverity {
  return action === 'unpack' || action === 'check' ? SEVERITIES[priority] : 'Minor';
}

/** What the readings or the calendar show themselves, with nothing inferred from them. */
const SEEN: readonly AlarmKind[] = ['probe-fault', 'probe-silent', 'inspection-due'];

/** Nobody has looked yet: to unpack is advised where rot is more `Likely` than not, to check where it is `Possible`. */
export function certaintyOf(event: AlarmEvent, { kind, action }: Rated): CapCertainty {
  if (event === 'withdrawn') return 'Unlikely';
  if (SEEN.includes(kind)) return 'Observed';
  return action === 'unpack' ? 'Likely' : 'Possible';
}

/** The type of event in words; English. */
export const EVENT_NAMES: Readonly<Record<AlarmKind, string>> = {
  heating: 'Sand too warm',
  damp: 'Damp sand',
  wetting: 'Water in the sand',
  condensation: 'Water drops on roots',
  sprouting: 'Roots sprouting',
  weevil: 'Weevils',
  'probe-fault': 'Probe fault',
  'probe-silent': 'Probe silent',
  'inspection-due': 'Inspection due',
};
