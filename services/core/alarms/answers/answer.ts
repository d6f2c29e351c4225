/** What an answer to a message can say. */
import type { Finding } from '../../model/inspection.js';

/** For how long an alarm can be kept quiet, whole hours. Judgement: three days cover a journey, not a season. */
export const QUIET_h = { low: 1, high: 72 } as const;

/**
 * Why an answer is not taken.
 *
 * - `empty`: nothing but blanks and punctuation
 * - `too-long`: longer than an answer is
 * - `no-known-word`: nothing that is asked for
 * - `negated`: a word such as "not", which turns round what is said
 * - `mixed`: things that do not go together, as nothing and rot, or all and a number
 * - `unsure`: something found is named among other words, and not that it was found
 * - `no-finding`: found or repacked, and not what was found
 * - `no-hours`: quiet, and not for how long
 * - `hours-out-of-range`: quiet for less or longer than can be asked for
 * - `strange-number`: a number that cannot be an alarm's
 */
export const UNCLEAR_REASONS = [
  'empty',
  'too-long',
  'no-known-word',
  'negated',
  'mixed',
  'unsure',
  'no-finding',
  'no-hours',
  'hours-out-of-range',
  'strange-number',
] as const;
export type UnclearReason = (typeof UNCLEAR_REASONS)[number];

/** Short numbers of alarms as they were written, each once; empty where none was: the caller takes the only one. */
interface Numbered {
  readonly numbers: readonly number[];
}

/** All alarms that wait for the sender's answer, as `OK ALL`; then no numbers. */
interface Whole {
  readonly all?: true;
}

export type UnderstoodAnswer =
  | (Numbered & Whole & { readonly kind: 'seen' })
  | (Numbered & {
      readonly kind: 'found';
      /** At least one, in the order of the model; `nothing` stands alone. */
      readonly findings: readonly Finding[];
      readonly repacked: boolean;
    })
  | (Numbered & Whole & { readonly kind: 'quiet'; readonly hours: number })
  | { readonly kind: 'stop' };

export type Answer = UnderstoodAnswer | { readonly kind: 'unclear'; readonly reason: UnclearReason };
