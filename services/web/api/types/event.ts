/** Something that happened to a bed. */
export interface BedEvent {
  readonly id: string;
  /** RFC 3339. */
  readonly at: string;
  readonly kind: string;
  /** A sentence, English. */
  readonly text: string;
  readonly about: { readonly alarm?: string; readonly probe?: string };
}
