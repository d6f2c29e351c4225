/** What a password and a name to sign in by must be. */

/**
 * Characters. NIST SP 800-63B asks for 15 where a password stands alone (from memory) and for no rules on what is in it;
 * 12 is judgement, for telephones. Longer than the most is a mistake.
 */
export const PASSWORD_characters = { least: 12, most: 128 } as const;

/** Short and lower-case, so that it can be said over a telephone. */
export const ACCOUNT_NAME = /^[a-z0-9][a-z0-9-]{0,31}$/;

/** Of one form however its letters were composed. */
export const normalPassword = (password: string): string => password.normalize('NFKC');

/** What is wrong with a password that somebody chose, in a sentence that does not repeat it; undefined where nothing is. */
export function passwordProblem(password: string, name: string): string | undefined {
  const { least, most } = PASSWORD_characters;
  const letters = [...normalPassword(password)];
  if (!(letters.length >= least && letters.length <= most))
    return `expected ${least} to ${most} characters, got ${letters.length}`;
  if (new Set(letters).size < 5) return 'expected at least 5 different characters';
  const bare = letters.join('').toLowerCase();
  if (bare.replaceAll(name, '').length < least / 2) return 'expected more than the name said again';
  if (/^(?:sandlarder|password|sweetpotato)[\d\W_]*$/.test(bare))
    return 'expected more than a word that everybody would try, with digits';
  return undefined;
}
