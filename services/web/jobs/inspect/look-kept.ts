/** What was typed of a look and not sent yet: it outlives the page. Pictures do not. */
import { keep, keptNow } from '../../parts/kept.js';
import type { TypedLook } from './look-typed.js';

const nameOf = (bed: string): string => `draft.look.${bed}`;

export const keptLook = (bed: string): TypedLook | undefined =>
  keptNow<TypedLook | undefined>(nameOf(bed), undefined);

/** @param look undefined once it is sent or waits to be */
export function keepLook(bed: string, look: TypedLook | undefined): void {
  keep(nameOf(bed), look);
}
