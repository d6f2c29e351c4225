/** What is typed of a look before it is sent, and what is read of it. */
import type { Finding, LookBody } from '../../api/types/inspection.js';
import { typedTime } from '../../parts/time-field.js';
import { typedNumber } from '../../parts/typed-number.js';

export const COUNTS = ['rotten', 'weevil', 'rodent', 'termite', 'sproutsShort', 'sproutsLong'] as const;
export type CountName = (typeof COUNTS)[number];

export interface TypedOut {
  readonly reason: string;
  readonly roots: string;
  readonly were: string;
}

/** As it stands in the fields: text, empty for what was not looked at. */
export interface TypedLook {
  readonly at: string;
  readonly by: string;
  /** `yes`, `no`, or empty. */
  readonly opened: string;
  readonly repacked: boolean;
  readonly warmByHand: string;
  readonly smell: string;
  readonly sandFeels: string;
  readonly looked: string;
  readonly counts: Readonly<Record<CountName, string>>;
  readonly out: readonly TypedOut[];
  /** Ticked by hand beside what follows from the rest. */
  readonly ticked: readonly Finding[];
  readonly note: string;
}

const NO_COUNTS: TypedLook['counts'] = {
  ...{ rotten: '', weevil: '', rodent: '', termite: '', sproutsShort: '', sproutsLong: '' },
};

export const NEW_OUT: TypedOut = { reason: 'thrown', roots: '', were: '' };

/** @param at local text of now */
export const newLook = (by: string, at: string): TypedLook => ({
  ...{ at, by, opened: '', repacked: false, warmByHand: '', smell: '', sandFeels: '', looked: '' },
  ...{ counts: NO_COUNTS, out: [], ticked: [], note: '' },
});

const textOf = (value: number | undefined): string => (value === undefined ? '' : String(value));

const isAbove = (text: string): boolean => (typedNumber(text) ?? 0) > 0;

/** What the counts, hands and nose say was found: the service asks for the same. */
export function foundBy({ counts, smell, sandFeels }: TypedLook): Finding[] {
  const found: Finding[] = [];
  if (isAbove(counts.rotten) || smell === 'rotten') found.push('rot');
  if (sandFeels === 'damp' || sandFeels === 'wet') found.push('damp');
  if (isAbove(counts.sproutsShort) || isAbove(counts.sproutsLong)) found.push('sprouts');
  if (isAbove(counts.weevil)) found.push('weevils');
  return found;
}

/** Whether anything was looked at, felt or smelled. */
export const tellsSomething = ({ looked, smell, sandFeels, warmByHand }: TypedLook): boolean =>
  isAbove(looked) || smell !== '' || sandFeels !== '' || warmByHand !== '';

export function foundOf(look: TypedLook): Finding[] {
  const seen = [...new Set([...foundBy(look), ...look.ticked])].filter((one) => one !== 'nothing');
  const nothing = look.ticked.includes('nothing') || tellsSomething(look);
  return seen.length > 0 ? seen : nothing ? ['nothing'] : [];
}

/** A record that was written down, to be mended. @param at local text of its time */
export function lookAgain(body: LookBody, at: string): TypedLook {
  const typed: TypedLook = {
    ...{ at, by: body.by, opened: body.opened ? 'yes' : 'no', repacked: body.repacked },
    ...{ warmByHand: body.warmByHand ?? '', smell: body.smell ?? '', sandFeels: body.sandFeels ?? '' },
    looked: textOf(body.looked),
    counts: Object.fromEntries(COUNTS.map((name) => [name, textOf(body[name])])) as Record<CountName, string>,
    out: (body.out ?? []).map(({ reason, roots, were = '' }) => ({ reason, roots: String(roots), were })),
    ticked: [],
    note: body.note ?? '',
  };
  const follows = foundBy(typed);
  return { ...typed, ticked: body.found.filter((finding) => !follows.includes(finding)) };
}

const given = <Value>(name: string, value: Value | undefined | ''): object =>
  value === undefined || value === '' ? {} : { [name]: value };

/** What is sent; it has been found to be as expected. */
export function bodyOf(look: TypedLook, id: string, photos: readonly string[]): LookBody {
  const out = look.out.map(({ reason, roots, were }) => ({
    ...{ reason, roots: typedNumber(roots) ?? 0 },
    ...given('were', were),
  }));
  return {
    ...{ id, at: typedTime(look.at) ?? '', by: look.by.trim(), opened: look.opened === 'yes' },
    ...{ repacked: look.repacked, found: foundOf(look) },
    ...given('warmByHand', look.warmByHand),
    ...given('smell', look.smell),
    ...given('sandFeels', look.sandFeels),
    ...given('looked', typedNumber(look.looked)),
    ...Object.assign({}, ...COUNTS.map((name) => given(name, typedNumber(look.counts[name])))),
    ...(out.length > 0 && { out }),
    ...(photos.length > 0 && { photos }),
    ...given('note', look.note.trim()),
  };
}
