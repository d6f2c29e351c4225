/** What somebody answered to a message. */
import { FINDINGS } from '../../model/inspection.js';
import { type Answer, QUIET_h, type UnclearReason } from './answer.js';
import { type Reading, readingOf } from './reading.js';
import { tokensOf } from './tokens.js';
import { wordsFor } from './words.js';

/** An answer takes three parts at most; whatever is longer was not written as one. Also bounds the work. */
const LONGEST_ANSWER = 480;

const unclear = (reason: UnclearReason): Answer => ({ kind: 'unclear', reason });

const once = (numbers: readonly number[]): number[] => [...new Set(numbers)];

/** What an answer says of all that waits. */
const wholeOf = ({ meanings }: Reading): { all?: true } => (meanings.has('all') ? { all: true } : {});

/** Without a word for hours, the last of several numbers is the hours: `QUIET 3 6`, and of `QUIET ALL 6` the only one. */
function quiet(reading: Reading): Answer {
  const { numbers, hours, hasJoined, meanings } = reading;
  if (hasJoined) return unclear('strange-number');
  const isBare = hours === undefined;
  if (isBare && numbers.length < (meanings.has('all') ? 1 : 2)) return unclear('no-hours');
  const asked = isBare ? (numbers.at(-1) ?? Number.NaN) : hours;
  if (!(asked >= QUIET_h.low && asked <= QUIET_h.high)) return unclear('hours-out-of-range');
  const alarms = once(isBare ? numbers.slice(0, -1) : numbers);
  if (meanings.has('all') && alarms.length > 0) return unclear('mixed');
  return { kind: 'quiet', hours: asked, numbers: alarms, ...wholeOf(reading) };
}

function seen(reading: Reading): Answer {
  const numbers = once(reading.numbers);
  if (!reading.meanings.has('seen')) return unclear('no-known-word');
  if (reading.meanings.has('all') && numbers.length > 0) return unclear('mixed');
  return { kind: 'seen', numbers, ...wholeOf(reading) };
}

/**
 * A finding without the word that it was found is taken only where nothing else is said. All that is found rotten may be
 * all of one bed: it names no beds.
 */
function found({ meanings, numbers, hasOthers }: Reading): Answer {
  const findings = FINDINGS.filter((finding) => meanings.has(finding));
  if (findings.length === 0) return unclear('no-finding');
  if (findings.length > 1 && meanings.has('nothing')) return unclear('mixed');
  const isTold = meanings.has('found') || meanings.has('repacked');
  if (!isTold && (hasOthers || meanings.has('seen') || meanings.has('all'))) return unclear('unsure');
  return { kind: 'found', findings, repacked: meanings.has('repacked'), numbers: once(numbers) };
}

const tellsOfBed = ({ meanings }: Reading): boolean =>
  meanings.has('found') || meanings.has('repacked') || FINDINGS.some((finding) => meanings.has(finding));

function decide(reading: Reading): Answer {
  const { meanings, numbers } = reading;
  if (reading.isStrange) return unclear('strange-number');
  if (meanings.has('not')) return unclear('negated');
  if (meanings.has('stop'))
    return meanings.size === 1 && numbers.length === 0 ? { kind: 'stop' } : unclear('mixed');
  if (meanings.has('quiet')) return tellsOfBed(reading) ? unclear('mixed') : quiet(reading);
  if (tellsOfBed(reading)) return found(reading);
  return seen(reading);
}

/**
 * Reads an answer in any of the languages: `OK 3`, `found rot damp 3`, `LATER 3 6h`, `NIMEONA KUOZA 3`.
 *
 * Case, accents, blanks, punctuation and the script of digits do not matter. What could be taken in two ways is
 * unclear, with the reason: asking again costs less than an inspection that nobody made. Never throws.
 *
 * @param languages tags of the person's own languages: their words come first where two languages share one
 */
export function parseAnswer(text: string, languages: readonly string[] = []): Answer {
  if (!(text.length <= LONGEST_ANSWER)) return unclear('too-long');
  const tokens = tokensOf(text);
  if (tokens.length === 0) return unclear('empty');
  return decide(readingOf(tokens, wordsFor(languages)));
}
