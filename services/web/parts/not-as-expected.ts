/** What the page itself sees to be wrong with a form, all of it at once. */
import { say } from '../words/say.js';

/** What is wrong, by JSON pointer without `#/`: `roots/count`. */
export type Wrongs = Readonly<Record<string, string>>;

/** Thrown by `onSend` where the page itself sees that something is not as expected. */
export class NotAsExpected extends Error {
  override readonly name = 'NotAsExpected';
  constructor(readonly wrongs: Wrongs) {
    super(say('parts.somethingWrong', { count: Object.keys(wrongs).length }));
  }
}

/**
 * Makes each check, and says at once all that any of them found.
 *
 * @param checks each throws NotAsExpected where something is not
 * @throws NotAsExpected
 */
export function expectAll(...checks: readonly (() => unknown)[]): void {
  const found = Object.assign({}, ...checks.map(wrongsFound)) as Wrongs;
  if (Object.keys(found).length > 0) throw new NotAsExpected(found);
}

function wrongsFound(check: () => unknown): Wrongs {
  try {
    check();
  } catch (error) {
    if (error instanceof NotAsExpected) return error.wrongs;
    throw error;
  }
  return {};
}
