/** The short message about one event of one alarm, in a person's language. */
import { SandlarderError } from '../../errors.js';
import type { AlarmEvent } from '../text.js';
import { asksWhatWasDone } from '../wording.js';
import type { Catalogue } from './catalogue.js';
import { type Fitted, firstFitting, fits, measured } from './fitting.js';
import { findingFor, hintsSaid } from './hint.js';
import { catalogueOf } from './languages.js';
import { type PlaceStyle, placesSaid } from './place.js';
import { plainName, say } from './say.js';
import { doingSaid, type NamedBed, reasonSaid, type Told, wrongSaid } from './wrong.js';

/** Short numbers have at most so many digits: what a person types without a mistake. */
export const HIGHEST_NUMBER = 9999;

export interface ShortMessageOptions {
  /** A tag such as `sw` or `sw-KE`. */
  readonly language: string;
  /** What the alarm is answered by, 1..9999; absent where it is the only one. */
  readonly number?: number | undefined;
  /** Whether the way brings answers back. An alarm that is over or taken back asks for none. */
  readonly mayAnswer?: boolean | undefined;
  /** Whether this person is to be told about rotten roots: once a season is enough. */
  readonly caution?: boolean | undefined;
  readonly placeStyle?: PlaceStyle | undefined;
  /** A sentence to begin with, such as `escalationNote` gives. */
  readonly note?: string | undefined;
}

export interface ShortMessage extends Fitted {
  /** A second text of its own, where the caution did not fit. */
  readonly more?: string;
}

type Context = Readonly<{ catalogue: Catalogue; episode: Told; bed: NamedBed; style: PlaceStyle }>;

const digs = ({ action }: Told): boolean => action === 'unpack' || action === 'check';

/** A probe is found by its name, and a look goes all over the bed; anything else to dig for has a place. */
const placeNeeded = (episode: Told): boolean =>
  digs(episode) && !episode.kind.startsWith('probe-') && episode.kind !== 'inspection-due';

const valuesOf = ({ catalogue, episode, bed }: Context) => ({
  bed: plainName(bed.name),
  wrong: wrongSaid(catalogue, episode, bed),
});

/** Where the whole is said in fewer words, the place goes before what bears it out, and that before the second half of what to do. */
function raisedLines(context: Context): string[] {
  const { catalogue, episode } = context;
  const reason = reasonSaid(catalogue, episode);
  const doings = doingSaid(catalogue, episode);
  const reasoned = reason === '' ? [] : linesFor(context, reason, doings.slice(0, 1));
  return [...reasoned, ...linesFor(context, '', doings)];
}

function linesFor(context: Context, reason: string, doings: readonly string[]): string[] {
  const { catalogue, episode, bed, style } = context;
  const values = { ...valuesOf(context), reason };
  const places = episode.place === null ? [] : placesSaid(catalogue, episode.place, bed.steps, style);
  const digging = episode.action === 'unpack' ? 'yes' : 'no';
  const placed = doings.flatMap((todo) =>
    places.map((place) => say(catalogue, 'line.raisedAt', { ...values, todo, digs: digging, place })),
  );
  const plain = doings.map((todo) => say(catalogue, 'line.raised', { ...values, todo }));
  return places.length > 0 && placeNeeded(episode) ? placed : [...placed, ...plain];
}

function refinedLines(context: Context): string[] {
  const { catalogue, episode, bed, style } = context;
  if (episode.place === null) return raisedLines(context);
  return placesSaid(catalogue, episode.place, bed.steps, style).map((place) =>
    say(catalogue, 'line.refined', { bed: plainName(bed.name), place }),
  );
}

/** Sums of warmth and two weeks only go on: such an alarm ends by what people did, not by readings. */
const restsOnReadings = ({ kind }: Told): boolean =>
  kind !== 'sprouting' && kind !== 'weevil' && kind !== 'inspection-due';

/** A rotting root can cool again and is still rotten, so a bed that was to be opened is still looked at. */
function clearedLines(context: Context): string[] {
  const { catalogue, episode } = context;
  const values = valuesOf(context);
  const over = say(catalogue, 'line.cleared', values);
  if (!restsOnReadings(episode)) return [over];
  const normal = say(catalogue, 'line.clearedReadings', values);
  return digs(episode) ? [say(catalogue, 'line.clearedLook', values), normal, over] : [normal, over];
}

function withdrawnLines(context: Context): string[] {
  const values = valuesOf(context);
  return (['line.withdrawnLook', 'line.withdrawn'] as const).map((key) =>
    say(context.catalogue, key, values),
  );
}

const LINES: Readonly<Record<AlarmEvent, (context: Context) => string[]>> = {
  raised: raisedLines,
  refined: refinedLines,
  cleared: clearedLines,
  withdrawn: withdrawnLines,
};

/** Throws OUT_OF_DOMAIN unless the short number is a whole one of 1..9999. */
export function requireNumber(number: number): void {
  if (Number.isInteger(number) && number >= 1 && number <= HIGHEST_NUMBER) return;
  throw new SandlarderError(
    'OUT_OF_DOMAIN',
    `short number of an alarm must be a whole number of 1..${HIGHEST_NUMBER}, got ${number}`,
  );
}

function hintsFor(catalogue: Catalogue, event: AlarmEvent, episode: Told, options: ShortMessageOptions) {
  if (!options.mayAnswer || event === 'cleared' || event === 'withdrawn') return [''];
  const numbers = options.number === undefined ? [] : [options.number];
  return hintsSaid(catalogue, numbers, findingFor(episode.kind));
}

/** People are to look because it is time to: then they are told what no probe sees, where there is room. */
const isLook = (event: AlarmEvent, episode: Told): boolean =>
  event === 'raised' && episode.kind === 'inspection-due' && !asksWhatWasDone(episode);

const sentences = (...parts: readonly (string | undefined)[]): string => parts.filter(Boolean).join(' ');

function withCaution(message: Fitted, caution: string): ShortMessage {
  const whole = measured(`${message.text} ${caution}`);
  return fits(whole) ? whole : { ...message, more: caution };
}

/**
 * Tells a keeper about an event of an alarm: which bed, what is wrong, what to do, where to dig and how to answer.
 *
 * One part in the GSM alphabet, or two in UCS-2, where the bed's name has at most 12 characters. A longer name makes a
 * longer text rather than a cut one, and a name outside the alphabet makes the text UCS-2.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a language that there is not, a number outside 1..9999, or a place that
 *   is none
 */
export function shortMessage(
  event: AlarmEvent,
  episode: Told,
  bed: NamedBed,
  options: ShortMessageOptions,
): ShortMessage {
  const catalogue = catalogueOf(options.language);
  if (options.number !== undefined) requireNumber(options.number);
  const lines = LINES[event]({ catalogue, episode, bed, style: options.placeStyle ?? 'arms' });
  const hints = hintsFor(catalogue, event, episode, options);
  const texts = lines.flatMap((line) => hints.map((hint) => sentences(options.note, line, hint)));
  const [line] = lines;
  const fullest = isLook(event, episode)
    ? [sentences(options.note, line, say(catalogue, 'unseen'), hints[0])]
    : [];
  const message = firstFitting([...fullest, ...texts]);
  return options.caution ? withCaution(message, say(catalogue, 'caution')) : message;
}
