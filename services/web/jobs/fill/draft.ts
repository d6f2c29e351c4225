/** A filling while it is being written down: texts as they were typed. */
import { newId } from '../../api/new-id.js';
import type { Filling } from '../../api/types/filling.js';
import { timeNow } from '../../parts/time-field.js';
import { zonedText } from '../../words/zoned.js';

export interface CourseTyped {
  readonly roots: string;
  readonly mass: string;
}

export interface PlaceTyped {
  readonly probe: string;
  readonly x: string;
  readonly y: string;
  readonly depth: string;
}

export interface FillDraft {
  /** The record's own id: however often it is sent it is taken once. */
  readonly id: string;
  readonly at: string;
  /** The lowest first. */
  readonly courses: readonly CourseTyped[];
  readonly mass: string;
  readonly cultivar: string;
  readonly field: string;
  readonly lot: string;
  readonly note: string;
  readonly places: readonly PlaceTyped[];
  /** The filling whose place it takes. */
  readonly supersedes?: string;
}

export const EMPTY_COURSE: CourseTyped = { roots: '', mass: '' };

/** @param filled when the bed is said to have been filled, where what went in is written down afterwards; else now */
export const newDraft = (filled?: string): FillDraft => ({
  ...{
    id: newId(),
    at: filled === undefined ? timeNow() : zonedText(Date.parse(filled)),
    courses: [EMPTY_COURSE],
    mass: '',
  },
  ...{ cultivar: '', field: '', lot: '', note: '', places: [] },
});

const typed = (value: number | null | undefined): string =>
  value === null || value === undefined ? '' : String(value);

/** A filling as it was sent. */
export interface SentFilling
  extends Pick<Filling, 'id' | 'at' | 'courses' | 'cultivar' | 'field' | 'lot' | 'note'> {
  readonly mass_kg?: number;
  readonly probes: Filling['buried'];
  readonly supersedes?: string;
}

/** A filling that was not taken, as it was typed. */
export function draftAgain({ probes, mass_kg, supersedes, ...sent }: SentFilling): FillDraft {
  const { supersedes: _, ...draft } = draftOf({ ...sent, mass_kg: mass_kg ?? null, buried: probes });
  return { ...draft, ...(supersedes === undefined ? {} : { supersedes }) };
}

/** A filling that was written down wrongly, to be mended. */
export function draftOf(
  filling: Pick<
    Filling,
    'id' | 'at' | 'courses' | 'mass_kg' | 'cultivar' | 'field' | 'lot' | 'note' | 'buried'
  >,
): FillDraft {
  const { id, at, courses, mass_kg, cultivar = '', field = '', lot = '', note = '', buried } = filling;
  const isWeighed = courses.every((course) => course.mass_kg !== undefined);
  return {
    ...{ id: newId(), at: zonedText(Date.parse(at)), cultivar, field, lot, note, supersedes: id },
    courses: courses.map((course) => ({ roots: typed(course.roots), mass: typed(course.mass_kg) })),
    mass: isWeighed ? '' : typed(mass_kg),
    places: buried.map(({ probe, x, y, depth }) => ({
      ...{ probe, x: typed(x), y: typed(y), depth: typed(depth) },
    })),
  };
}
