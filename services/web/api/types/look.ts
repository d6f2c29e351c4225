/** When a bed is to be looked into by hand. */
export interface NextLook {
  readonly bed: string;
  readonly due: boolean;
  /** Since when, or from when on; null where nothing says so. */
  readonly dueAt: string | null;
}
