/** Alarms as the outside contract has them; the life cycle is that of IEC 62682. */
import { z } from 'zod';
import { whoSchema } from './who.js';

export const ALARM_KINDS = [
  'heating',
  'damp',
  'wetting',
  'condensation',
  'sprouting',
  'weevil',
  'probe-fault',
  'probe-silent',
  'inspection-due',
] as const;
export const PRIORITIES = ['high', 'medium', 'low'] as const;
export const ACTIONS = ['unpack', 'check', 'service', 'none'] as const;
export const ALARM_STATES = [
  'unacknowledged',
  'acknowledged',
  'returned-unacknowledged',
  'normal',
  'shelved',
] as const;

export type AlarmKind = (typeof ALARM_KINDS)[number];
export type Priority = (typeof PRIORITIES)[number];
export type Action = (typeof ACTIONS)[number];
export type AlarmState = (typeof ALARM_STATES)[number];

/** Numbers (with their unit in the name) and words that the alarm rests on. */
export type Evidence = Readonly<Record<string, number | string>>;

/** Where in the bed to dig: centimetres from the north-west corner of the opening, depth from the top of the sand. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  readonly radius: number;
}

/**
 * One condition of one bed from its establishment to its end, as the watch sees it: nothing of what people did
 * with it. Two runs over the same readings give equal episodes.
 */
export interface Episode {
  readonly bed: string;
  readonly kind: AlarmKind;
  readonly priority: Priority;
  readonly action: Action;
  /** What of the bed it is about: empty for the bed as a whole, or the id of a probe. */
  readonly subject: string;
  /** Event time at which the condition was established, ms. */
  readonly raisedAt: number;
  /** Event time at which it had returned to normal, ms; null while it lasts. */
  readonly clearedAt: number | null;
  /** As they were known last; they may become better known while the condition lasts. */
  readonly evidence: Evidence;
  readonly place: Place | null;
}

export interface Acknowledgement {
  readonly by: string;
  readonly note: string;
  readonly at: number;
}

/**
 * What inspections say of an alarm.
 * - `right`: what it warned of was found
 * - `wrong`: nothing was found
 * - `other`: something else was found
 * - `unseen`: nobody looked within a week
 * - `untold`: somebody looked, and opening the bed does not tell
 */
export const VERDICTS = ['right', 'wrong', 'other', 'unseen', 'untold'] as const;
export type Verdict = (typeof VERDICTS)[number];

export interface FoundOut {
  readonly verdict: Verdict;
  /** Event time of the inspection that it rests on, ms. */
  readonly lookedAt: number | null;
}

/** Somebody asked for silence for a time: IEC 62682 shelving, which always has an end. */
export interface Shelving {
  readonly by: string;
  /** Wall clock, ms. */
  readonly at: number;
  readonly until: number;
}

/** Hours for which an alarm can be shelved at the most: judgement, three nights. */
export const SHELVED_MOST_h = 72;

export const shelveBodySchema = z.strictObject({
  by: whoSchema,
  hours: z.number().positive().max(SHELVED_MOST_h),
});

/** An episode with its name, its text and what people did with it. */
export interface Alarm extends Episode {
  readonly id: string;
  readonly site: string;
  readonly state: AlarmState;
  readonly text: string;
  readonly acknowledgement: Acknowledgement | null;
  /** The last; absent where nobody asked for silence. */
  readonly shelving?: Shelving;
  /** What inspections have said of it by now; absent where nobody asked. */
  readonly foundOut?: FoundOut;
}

export const acknowledgeBodySchema = z.strictObject({
  by: whoSchema,
  note: z.string().max(1000).default(''),
});
