/** Beds of the site by the names that people know them by. */
import { type SeenAnswer, useSeen } from '../api/seen.js';

export interface BedToTry {
  readonly id: string;
  readonly name: string;
  readonly site: string;
}

export const useBeds = (): SeenAnswer<readonly BedToTry[]> =>
  useSeen<readonly BedToTry[]>('/api/beds', { live: ['site'] });

/** Gives the name of a bed; its id where that is all there is. */
export function useBedName(): (id: string) => string {
  const { answer = [] } = useBeds();
  const names = new Map(answer.map(({ id, name }) => [id, name]));
  return (id) => names.get(id) ?? id;
}
