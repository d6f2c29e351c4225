/**
 * What a keeper reads: one plain line that fits a short message, and a longer text with the evidence and the
 * cautions.
 */
import { timeInWords } from '../calibration/certificate-words.js';
import type { Episode } from '../model/alarm.js';
import type { Step } from '../model/bed.js';
import { cautionsFor, UNSEEN_IN_SHORT } from './cautions.js';
import { withDegrees } from './degrees.js';
import { evidenceInWords } from './evidence-in-words.js';
import { meaningInWords } from './meaning.js';
import { placeInWords } from './place-in-words.js';
import { ONE_MESSAGE_septets, septetsOf } from './septets.js';
import {
  asksWhatWasDone,
  doingInWords,
  openingInWords,
  PLACE_LEAD,
  reasonInWords,
  wrongInWords,
} from './wording.js';

/**
 * What people are told of.
 *
 * - `raised`: the condition was established
 * - `refined`: it lies elsewhere, or is narrowed down to a much smaller part, than people were told
 * - `cleared`: it has returned to normal
 * - `withdrawn`: readings that came in later show that it never was
 */
export const ALARM_EVENTS = ['raised', 'refined', 'cleared', 'withdrawn'] as const;
export type AlarmEvent = (typeof ALARM_EVENTS)[number];

/** What the texts need of a bed. */
export interface NamedBed {
  readonly name: string;
  readonly steps: readonly Step[];
  /** IANA name of its site's clock, by which days are said; UTC where null. */
  readonly timeZone: string | null;
}

type Told = Omit<Episode, 'priority' | 'bed'>;

/** The first that fits one message; where none does, the last, which is the shortest. Nothing is cut off. */
function firstThatFits(lines: readonly string[]): string {
  const fits = (line: string): boolean => (septetsOf(line) ?? line.length) <= ONE_MESSAGE_septets;
  return lines.find(fits) ?? lines.at(-1) ?? '';
}

/** Whether the keeper has to dig. */
const digs = ({ action }: Told): boolean => action === 'unpack' || action === 'check';

/** Whether the place is never left out: a probe is found by its name, and a look goes all over the bed. */
const placeNeeded = (episode: Told): boolean =>
  digs(episode) && !episode.kind.startsWith('probe-') && episode.kind !== 'inspection-due';

/** Whether people are to look because it is time to: no reading can be back to normal then. */
const isLook = (episode: Told): boolean => episode.kind === 'inspection-due' && !asksWhatWasDone(episode);

function withoutPlace(episode: Told, bed: NamedBed, reason = ''): string {
  const sentences = [openingInWords(episode, bed), reason, doingInWords(episode)];
  return `${bed.name}: ${sentences.filter(Boolean).join(' ')}`;
}

function raisedLines(episode: Told, bed: NamedBed): string[] {
  const reason = reasonInWords(episode);
  const start = withoutPlace(episode, bed);
  const reasoned = reason === '' ? [] : [withoutPlace(episode, bed, reason)];
  if (episode.place === null)
    return isLook(episode) ? [`${start} ${UNSEEN_IN_SHORT}`, start] : [...reasoned, start];
  const lead = PLACE_LEAD[episode.action];
  const places = placeInWords(episode.place, bed.steps).lines;
  const at = (begin: string, wheres: readonly string[]) =>
    wheres.map((where) => `${begin} ${lead} ${where}.`);
  // Rather without the reason than with a place in bare centimetres.
  const lines = [...reasoned.flatMap((begin) => at(begin, places.slice(0, -1))), ...at(start, places)];
  return placeNeeded(episode) ? lines : [...lines, start];
}

function refinedLines(episode: Told, bed: NamedBed): string[] {
  if (episode.place === null) return raisedLines(episode, bed);
  return placeInWords(episode.place, bed.steps).lines.map(
    (where) => `${bed.name}: dig here instead: ${where}.`,
  );
}

/** Thermal time and two weeks only go on: such an alarm ends by what people did and wrote down. */
const restsOnReadings = ({ kind }: Told): boolean =>
  kind !== 'sprouting' && kind !== 'weevil' && kind !== 'inspection-due';

/**
 * A rotting root can cool again and is still rotten, so a bed that was to be opened is still looked at.
 * A look about every two weeks is common practice.
 */
function clearedLines(episode: Told, bed: NamedBed): string[] {
  const over = `${bed.name}: over: ${wrongInWords(episode, bed)}.`;
  if (!restsOnReadings(episode)) return [over];
  const start = `${over} Readings are back to normal.`;
  if (!digs(episode)) return [start];
  return [`${start} If you have not opened it, look at your next visit.`, start];
}

function withdrawnLines(episode: Told, bed: NamedBed): string[] {
  const start = `${bed.name}: taken back: ${wrongInWords(episode, bed)}.`;
  return [`${start} Readings that came in late do not bear it out. Keep up the two-weekly look.`, start];
}

const LINES = {
  raised: raisedLines,
  refined: refinedLines,
  cleared: clearedLines,
  withdrawn: withdrawnLines,
} as const;

/**
 * One plain line for a keeper about an event of an alarm: which bed, what is wrong, what to do.
 *
 * At most 160 septets of the GSM alphabet where the bed's name is short and in that alphabet; a longer name makes
 * a longer line rather than a cut one.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a place that is none
 */
export function eventLine(event: AlarmEvent, episode: Told, bed: NamedBed): string {
  return firstThatFits(LINES[event](episode, bed));
}

/** The text of an alarm: the line at its raising, with where to dig. */
export function alarmText(episode: Told, bed: NamedBed): string {
  return eventLine('raised', episode, bed);
}

/**
 * The longer text about an event of an alarm, in sentences: the line, the place with its radius, what it means and
 * what to do at the bed, the evidence with the event times by the site's clock, and the cautions. No short message: it
 * has the degree sign.
 *
 * @param timeZone IANA name; UTC where null
 * @throws SandlarderError OUT_OF_DOMAIN for a place that is none, and for a zone that the runtime does not know
 */
export function longText(event: AlarmEvent, episode: Told, bed: NamedBed, timeZone: string | null): string {
  const write = (time: number): string => timeInWords(time, timeZone);
  const evidence = evidenceInWords(episode.evidence, write);
  const cleared = episode.clearedAt === null ? '' : ` It was over by ${write(episode.clearedAt)}.`;
  const line =
    event === 'raised' ? withoutPlace(episode, bed, reasonInWords(episode)) : eventLine(event, episode, bed);
  const sentences = [
    withDegrees(line, [bed.name]),
    episode.place && `Where: ${placeInWords(episode.place, bed.steps).full}.`,
    (event === 'raised' || event === 'refined') && meaningInWords(episode),
    evidence && `Why: ${evidence}.`,
    `It was established by ${write(episode.raisedAt)}.${cleared}`,
    ...(event === 'withdrawn' ? [] : cautionsFor(episode.kind, episode.action)),
  ];
  return sentences.filter(Boolean).join(' ');
}
