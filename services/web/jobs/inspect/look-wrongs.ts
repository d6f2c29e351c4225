/** What in a typed look is not as expected: said before it is kept, as nobody answers where there is no network. */
import type { Wrongs } from '../../parts/form.js';
import { typedTime } from '../../parts/time-field.js';
import { typedNumber } from '../../parts/typed-number.js';
import { say } from '../../words/say.js';
import { COUNTS, foundOf, type TypedLook } from './look-typed.js';

type Wrong = readonly [place: string, text: string];

const isCount = (value: number | undefined): boolean =>
  value === undefined || (Number.isInteger(value) && value >= 0);

function frameWrongs(look: TypedLook): Wrong[] {
  return [
    ...(look.by.trim() === '' ? [['by', say('alarm.byMissing')] as const] : []),
    ...(typedTime(look.at) === undefined ? [['at', say('inspect.whenWrong')] as const] : []),
    ...(look.opened === '' ? [['opened', say('inspect.openedWrong')] as const] : []),
    ...(foundOf(look).length === 0 ? [['found', say('inspect.foundMissing')] as const] : []),
  ];
}

function countWrongs({ looked, counts }: TypedLook): Wrong[] {
  const all = typedNumber(looked);
  const given = COUNTS.filter((name) => counts[name].trim() !== '');
  const wrongs: Wrong[] = isCount(all) ? [] : [['looked', say('inspect.whole')]];
  if (all === undefined && given.length > 0) wrongs.push(['looked', say('inspect.lookedNeeded')]);
  for (const name of given) {
    const count = typedNumber(counts[name]);
    if (!isCount(count)) wrongs.push([name, say('inspect.whole')]);
    else if (all !== undefined && !((count ?? 0) <= all))
      wrongs.push([name, say('inspect.atMost', { looked: all })]);
  }
  return wrongs;
}

function outWrongs({ out, looked, opened }: TypedLook): Wrong[] {
  const roots = out.map((entry) => typedNumber(entry.roots) ?? Number.NaN);
  const wrongs: Wrong[] = roots.flatMap((count, at): Wrong[] =>
    Number.isInteger(count) && count > 0 ? [] : [[`out/${at}/roots`, say('inspect.outWrong')]],
  );
  const [together, all] = [roots.reduce((sum, count) => sum + count, 0), typedNumber(looked)];
  if (wrongs.length === 0 && out.length > 0 && !((all ?? 0) >= together))
    wrongs.push(['looked', say('inspect.lookedOut', { out: together })]);
  if (opened === 'no' && (out.length > 0 || (all ?? 0) > 0))
    wrongs.push(['opened', say('inspect.openedNeeded')]);
  return wrongs;
}

/** By the name that the service gives the place; empty where all is as expected. The first of a place stands. */
export function wrongsOf(look: TypedLook): Wrongs {
  const all = [...frameWrongs(look), ...countWrongs(look), ...outWrongs(look)];
  return Object.fromEntries(all.reverse());
}
