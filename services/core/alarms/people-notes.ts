/** What whoever describes a site's people should know of them. */
import type { Person } from '../model/site.js';
import { LANGUAGES, languageOf } from './languages/index.js';
import { reachProblem } from './telling.js';

/** A sentence for each way that cannot be used, and for each language whose texts are a draft. */
export const peopleNotes = (people: readonly Person[]): string[] => [
  ...people.flatMap(unusableWays),
  ...draftsFor(people),
];

const unusableWays = ({ id, reach }: Person): string[] =>
  reach.flatMap((way) => {
    const problem = reachProblem(way);
    return problem === undefined ? [] : [`${id} cannot be told by ${way.via}: ${problem}`];
  });

function draftsFor(people: readonly Person[]): string[] {
  const used = new Set(people.map(({ language }) => languageOf(language)));
  return LANGUAGES.filter(({ language, nativeReviewed }) => used.has(language) && !nativeReviewed).map(
    ({ language, name, note }) => `messages in ${name} (${language}): ${note}`,
  );
}
