/** One question of the list that is gone through before a bed is filled, and how it is answered. */
import type { ItemId } from '../model/readiness.js';
import type { CitedLimit } from './sand-limits.js';
import type { Met } from './sand-verdict.js';

export type AnsweredBy = 'probe' | 'hand';

export interface ReadinessItem {
  readonly id: ItemId;
  readonly question: string;
  /** What was found, in words; why it is not known where it is not. */
  readonly measure: string;
  /** What it is held against, in words: `at most 2 °C above the shade`. */
  readonly limit: string;
  /** The settable limits in it; none of a question that is answered with yes or no. */
  readonly limits: readonly CitedLimit[];
  readonly reason: string;
  readonly source: string;
  readonly answeredBy: AnsweredBy;
  readonly state: Met;
}

/** What is the same whatever the answer. */
export type Asked = Omit<ReadinessItem, 'measure' | 'state' | 'source' | 'limits'>;

export interface Answer {
  readonly measure: string;
  readonly state: Met;
}

export const PRACTICE = 'common practice, no source';

export const NOT_ANSWERED: Answer = { measure: 'not answered', state: 'unknown' };

/** An item that has limits: its source is theirs. */
export function withLimits(asked: Asked, limits: readonly CitedLimit[], answer: Answer): ReadinessItem {
  const source = limits.map(({ name, source: of }) => `${name}: ${of}`).join('; ');
  return { ...asked, ...answer, limits, source };
}

/** An item that is answered with yes or no. */
export function yesOrNo(asked: Asked, source: string, said: boolean | undefined): ReadinessItem {
  const answer: Answer =
    said === undefined ? NOT_ANSWERED : { measure: said ? 'yes' : 'no', state: said ? 'met' : 'not met' };
  return { ...asked, ...answer, limits: [], source };
}

/** A yes that is met, a no that is not. */
export const metIf = (holds: boolean): Met => (holds ? 'met' : 'not met');
