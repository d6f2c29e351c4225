/** Messages about more than one alarm, and about none. */
import { requireInDomain } from '../../errors.js';
import type { Catalogue } from './catalogue.js';
import { type Fitted, firstFitting, measured } from './fitting.js';
import { allExample, hintsSaid, type Numbers } from './hint.js';
import { catalogueOf } from './languages.js';
import { joined, plainName, say } from './say.js';
import { requireNumber } from './short-message.js';
import type { NamedBed, Told } from './wrong.js';

export interface BundleItem {
  readonly bed: Pick<NamedBed, 'name'>;
  readonly episode: Pick<Told, 'kind'>;
  readonly number?: number | undefined;
}

export interface SeveralOptions {
  /** A tag such as `sw` or `sw-KE`. */
  readonly language: string;
  readonly mayAnswer?: boolean | undefined;
}

/** A bundle may take two parts: it stands for several messages. */
const BUNDLE_PARTS = 2;

/** How many beds the items are of; beds of one name count once, as whoever reads of them sees one. */
export const bedsOf = (items: readonly BundleItem[]): number =>
  new Set(items.map(({ bed }) => plainName(bed.name))).size;

const numbersOf = (items: readonly BundleItem[]): Numbers => [
  ...new Set(items.flatMap(({ number }) => (number === undefined ? [] : [number]))),
];

const briefly = (catalogue: Catalogue, { bed, episode }: BundleItem): string =>
  `${plainName(bed.name)} ${say(catalogue, `brief.${episode.kind}`)}`;

/** The first items and how many more there are; the answer is for those that are named. */
function bundleText(catalogue: Catalogue, items: readonly BundleItem[], named: number, asks: boolean) {
  const shown = items.slice(0, named);
  const more = items.length - named;
  const list = joined(
    catalogue,
    shown.map((item) => briefly(catalogue, item)),
  );
  const text = say(catalogue, more > 0 ? 'bundleMore' : 'bundle', { beds: bedsOf(items), list, more });
  const numbers = numbersOf(shown);
  const hint = asks && numbers.length > 0 ? hintsSaid(catalogue, numbers, undefined).at(-1) : '';
  return [text, hint].filter(Boolean).join(' ');
}

function requireSome(name: string, count: number): void {
  requireInDomain(name, count, 1, Number.MAX_SAFE_INTEGER);
}

/**
 * Tells of several alarms at once: `3 beds need a look: Pit A damp, Box B weevils. Answer OK 3 5.`
 *
 * One or two parts. Where not all can be named, the first are, with the number of those that are left out.
 *
 * @param items the gravest first, at least one
 * @throws SandlarderError OUT_OF_DOMAIN without items, for a language that there is not, or a number outside 1..9999
 */
export function bundleMessage(items: readonly BundleItem[], options: SeveralOptions): Fitted {
  const catalogue = catalogueOf(options.language);
  requireSome('number of alarms in a bundle', items.length);
  numbersOf(items).forEach(requireNumber);
  const asks = options.mayAnswer ?? false;
  const whole = measured(bundleText(catalogue, items, items.length, asks));
  if (whole.parts <= BUNDLE_PARTS) return whole;
  for (let named = items.length - 1; named > 1; named -= 1) {
    const some = measured(bundleText(catalogue, items, named, asks));
    if (some.parts <= BUNDLE_PARTS) return some;
  }
  return measured(bundleText(catalogue, items, 1, asks));
}

export interface Storm {
  readonly alarms: number;
  readonly beds: number;
  /** What to see to first, the gravest first. */
  readonly first: readonly BundleItem[];
}

/**
 * Tells of a storm of alarms in numbers, with as many of the gravest as fit, and how to answer for all.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a count under 1, or a language that there is not
 */
export function summaryMessage({ alarms, beds, first }: Storm, options: SeveralOptions): Fitted {
  const catalogue = catalogueOf(options.language);
  requireSome('number of alarms', alarms);
  requireSome('number of beds', beds);
  const count = say(catalogue, 'summary', { alarms, beds });
  const hint = options.mayAnswer ? [say(catalogue, 'hint.ok', { ok: allExample(catalogue) })] : [];
  const texts = first.map((_, index) => {
    const named = first.slice(0, first.length - index).map((item) => briefly(catalogue, item));
    return [count, say(catalogue, 'summaryFirst', { list: joined(catalogue, named) }), ...hint].join(' ');
  });
  return firstFitting([...texts, [count, ...hint].join(' ')]);
}

/**
 * Tries whether messages arrive, and says that nothing is wrong: `TEST, no alarm: Pit A. ... Answer OK 3.`
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a language that there is not, or a number outside 1..9999
 */
export function drillMessage(
  bed: Pick<NamedBed, 'name'>,
  { language, number, mayAnswer }: SeveralOptions & { readonly number?: number | undefined },
): Fitted {
  const catalogue = catalogueOf(language);
  if (number !== undefined) requireNumber(number);
  const test = say(catalogue, 'drill', { bed: plainName(bed.name) });
  const hints = mayAnswer ? hintsSaid(catalogue, number === undefined ? [] : [number], undefined) : [''];
  return firstFitting(hints.map((hint) => `${test} ${hint}`.trim()));
}

/**
 * A sentence for whoever is told in the place of another: `Amina cannot be reached.`
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a language that there is not
 */
export const unreachedNote = (name: string, language: string): string =>
  say(catalogueOf(language), 'unreached', { name: plainName(name) });

/**
 * A sentence for whoever is told next: `Not answered by Amina since 3 h.`
 *
 * @param hours since the first was told, whole and not negative
 * @throws SandlarderError OUT_OF_DOMAIN for hours that are none, or a language that there is not
 */
export function escalationNote(name: string, hours: number, language: string): string {
  requireInDomain('hours without an answer', hours, 0, Number.MAX_SAFE_INTEGER);
  return say(catalogueOf(language), 'escalation', { name: plainName(name), hours: Math.floor(hours) });
}
