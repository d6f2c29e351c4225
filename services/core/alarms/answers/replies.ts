/** What goes back to whoever answered. */
import {
  allExample,
  catalogueOf,
  type Fitted,
  findingSaid,
  foundExample,
  joined,
  laterExample,
  measured,
  okExample,
  plainName,
  say,
} from '../languages/index.js';
import { QUIET_h, type UnclearReason, type UnderstoodAnswer } from './answer.js';

/** So many beds or alarms are named, and then how many more. Judgement: about one short message. */
const MOST_NAMED = 6;

/** Hours in an example: about until the evening. */
const EXAMPLE_h = 6;

/**
 * Says what was written down: `Thanks. Written down for Pit A: ROT, DAMP.` It names the beds, so that a wrong number
 * is noticed.
 *
 * @param beds names of the beds whose alarms were answered; they do not matter where messages are stopped
 * @throws SandlarderError OUT_OF_DOMAIN for a language that there is not
 */
export function thanksMessage(answer: UnderstoodAnswer, beds: readonly string[], language: string): Fitted {
  const catalogue = catalogueOf(language);
  const names = [...new Set(beds.map(plainName))];
  const more = names.length - MOST_NAMED;
  const named = joined(catalogue, [...names.slice(0, MOST_NAMED), ...(more > 0 ? [`+${more}`] : [])]);
  if (answer.kind === 'stop') return measured(say(catalogue, 'thanks.stop'));
  if (answer.kind === 'seen') return measured(say(catalogue, 'thanks.seen', { beds: named }));
  if (answer.kind === 'quiet')
    return measured(say(catalogue, 'thanks.quiet', { beds: named, hours: answer.hours }));
  const findings = joined(
    catalogue,
    answer.findings.map((finding) => findingSaid(catalogue, finding)),
  );
  const key = answer.repacked ? 'thanks.repacked' : 'thanks.found';
  return measured(say(catalogue, key, { beds: named, findings }));
}

/** An alarm that waits for an answer, as it is told apart from others. */
export interface Waiting {
  readonly bed: string;
  readonly number: number;
}

/**
 * Asks which of several alarms is meant: `Which one? 3 Pit A, 5 Pit B. Answer OK 3 or OK ALL.`
 *
 * @param waiting the gravest first, at least one
 * @throws SandlarderError OUT_OF_DOMAIN for a language that there is not
 */
export function whichMessage(
  answer: Exclude<UnderstoodAnswer, { kind: 'stop' }>,
  waiting: readonly Waiting[],
  language: string,
): Fitted {
  const catalogue = catalogueOf(language);
  const named = waiting.slice(0, MOST_NAMED).map(({ bed, number }) => `${number} ${plainName(bed)}`);
  const more = waiting.length - named.length;
  const list = joined(catalogue, more > 0 ? [...named, `+${more}`] : named);
  const numbers = waiting.slice(0, 1).map(({ number }) => number);
  if (answer.kind === 'found') {
    const one = foundExample(catalogue, answer.findings[0] ?? 'nothing', numbers);
    return measured(say(catalogue, 'which', { list, one }));
  }
  if (answer.kind === 'quiet')
    return measured(say(catalogue, 'which', { list, one: laterExample(catalogue, numbers, answer.hours) }));
  if (waiting.length === 1)
    return measured(say(catalogue, 'which', { list, one: okExample(catalogue, numbers) }));
  const all = allExample(catalogue);
  return measured(say(catalogue, 'whichOrAll', { list, one: okExample(catalogue, numbers), all }));
}

/** Says to whoever answers that there is nothing to answer. Throws OUT_OF_DOMAIN for a language that there is not. */
export const nothingOpenMessage = (language: string): Fitted =>
  measured(say(catalogueOf(language), 'nothingOpen'));

/**
 * Says how to answer so that it is understood.
 *
 * @param number the short number to show in the examples; none where only one alarm is open
 * @throws SandlarderError OUT_OF_DOMAIN for a language that there is not
 */
export function notUnderstoodMessage(
  reason: UnclearReason,
  { language, number }: { readonly language: string; readonly number?: number | undefined },
): Fitted {
  const catalogue = catalogueOf(language);
  const numbers = number === undefined ? [] : [number];
  const later = laterExample(catalogue, numbers, EXAMPLE_h);
  const found = foundExample(catalogue, 'rot', numbers);
  if (reason === 'no-hours' || reason === 'hours-out-of-range')
    return measured(say(catalogue, 'notUnderstoodHours', { ...QUIET_h, later }));
  if (reason === 'no-finding') {
    const nothing = foundExample(catalogue, 'nothing', numbers);
    return measured(say(catalogue, 'notUnderstoodFinding', { found, nothing }));
  }
  const ok = okExample(catalogue, numbers);
  return measured(say(catalogue, 'notUnderstood', { ok, found, later }));
}
