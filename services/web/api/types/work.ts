/** Beds and looks, as far as the list of jobs goes by them. */

/** One of `GET /api/beds`. */
export interface BedAtWork {
  readonly id: string;
  readonly name: string;
  readonly kind: 'stepped-pit' | 'box';
  readonly filled: string | null;
}

/** One of `GET /api/looks`. */
export interface Look {
  readonly bed: string;
  readonly due: boolean;
  /** null where the bed is empty or nobody said that it was filled. */
  readonly dueAt: string | null;
  readonly reasons: readonly { readonly by: string; readonly text: string }[];
}
