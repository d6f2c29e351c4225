/** What went into a bed. */
export interface Filling {
  readonly id: string;
  /** RFC 3339. */
  readonly at: string;
  readonly by: string;
  /** From the floor up. */
  readonly courses: readonly { readonly roots: number; readonly mass_kg?: number }[];
  readonly inForce: boolean;
}
