/** Languages in their own words, so that whoever reads no other finds theirs. */
/** Where browsers have no name of it in itself, or one of another language. */
const OURS: Partial<Readonly<Record<string, string>>> = { ny: 'Chichewa (Chinyanja)', ha: 'Hausa' };

export const ownName = (code: string): string =>
  OURS[code] ?? new Intl.DisplayNames([code], { type: 'language' }).of(code) ?? code;
