/** Beds and looks, as far as the list of jobs goes by them. */

import type { Alarm } from './alarm.js';

/** One of `GET /api/beds`. */
export interface BedAtWork {
  readonly id: string;
  readonly name: string;
  readonly kind: 'stepped-pit' | 'box';
  readonly filled: string | null;
  readonly openAlarms: readonly Pick<Alarm, 'id' | 'text' | 'language'>[];
}

/** One of `GET /api/looks`. */
export interface Look {
  readonly bed: string;
  readonly due: boolean;
  /** null where the bed is empty or nobody said that it was filled. */
  readonly dueAt: string | null;
  readonly reasons: readonly { readonly by: string; readonly text: string; readonly alarm: string | null }[];
}
