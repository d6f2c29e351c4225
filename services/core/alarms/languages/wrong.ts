/** What is wrong with a bed and what to do about it, in the words of a language. */
import type { Episode } from '../../model/alarm.js';
import { borneOutBy } from '../borne-out.js';
import { numberOf, timeOf, wordOf } from '../evidence-values.js';
import { localDay } from '../local-day.js';
import type { NamedBed } from '../text.js';
import { asksWhatWasDone } from '../wording.js';
import type { Catalogue, MessageKey } from './catalogue.js';
import { say } from './say.js';

/** What the messages need of an episode. */
export type Told = Pick<Episode, 'kind' | 'action' | 'subject' | 'evidence' | 'place'>;
export type { NamedBed };

/** The least that is not said as 0.0. */
const SAYABLE_C = 0.1;

const isProbe = ({ kind }: Told): boolean => kind === 'probe-fault' || kind === 'probe-silent';

/** A sign of water that a broken humidity sensor gives as well. */
const asksProbeForWater = ({ kind, action }: Told): boolean =>
  action === 'service' && (kind === 'damp' || kind === 'wetting' || kind === 'condensation');

/** The key under which a catalogue has a name's words, or that for all other names. */
function keyFor(catalogue: Catalogue, group: 'fault' | 'look' | 'due', name: string): MessageKey {
  const key = `${group}.${name}`;
  return Object.hasOwn(catalogue.messages, key) ? (key as MessageKey) : `${group}.other`;
}

function probeSaid(catalogue: Catalogue, episode: Told): string {
  const probe = (isProbe(episode) && episode.subject) || wordOf(episode.evidence, 'probe');
  return probe ? say(catalogue, 'probe.named', { probe }) : say(catalogue, 'probe.unnamed');
}

/** Of several sources of warmth in a bed, which: a subject other than the watch's own is another place. */
const sourceOf = (subject: string): string => {
  if (subject === '') return 'first';
  return subject === 'second' || subject === 'third' ? subject : 'another';
};

function warmthSaid(catalogue: Catalogue, { subject, evidence }: Told): string {
  const excess = numberOf(evidence, 'excess_C') ?? 0;
  const size = excess >= SAYABLE_C ? 'known' : 'unknown';
  return say(catalogue, 'wrong.heating', { size, excess, source: sourceOf(subject) });
}

/** By whose clock a day is said. */
export type Clocked = Pick<NamedBed, 'timeZone'>;

/** A day of the site's calendar. @throws SandlarderError OUT_OF_DOMAIN for a zone that the runtime does not know */
export function daySaid(catalogue: Catalogue, at: number, { timeZone }: Clocked): string {
  const time = localDay(at, timeZone);
  const date = new Date(time);
  return say(catalogue, 'day', { time, day: date.getUTCDate(), month: `m${date.getUTCMonth() + 1}` });
}

function askedSaid(catalogue: Catalogue, { evidence }: Told, bed: Clocked): string {
  const time = timeOf(evidence, 'since') ?? timeOf(evidence, 'onsetAt');
  if (time === undefined) return say(catalogue, 'wrong.askedLately');
  return say(catalogue, 'wrong.asked', { day: daySaid(catalogue, time, bed) });
}

/** What is wrong, in a few words that can follow a bed's name and a colon. No full stop. */
export function wrongSaid(catalogue: Catalogue, episode: Told, bed: Clocked): string {
  const { kind, evidence } = episode;
  if (asksWhatWasDone(episode)) return askedSaid(catalogue, episode, bed);
  if (kind === 'inspection-due')
    return say(catalogue, keyFor(catalogue, 'due', wordOf(evidence, 'because') ?? ''));
  if (kind === 'heating') return warmthSaid(catalogue, episode);
  const probe = probeSaid(catalogue, episode);
  if (asksProbeForWater(episode)) return say(catalogue, 'wrong.probeWet', { probe });
  if (kind === 'probe-fault')
    return say(catalogue, keyFor(catalogue, 'fault', wordOf(evidence, 'fault') ?? ''), { probe });
  return say(catalogue, `wrong.${kind}`, { probe });
}

/** What bears it out, as a sentence; empty where nothing is to be said. */
export function reasonSaid(catalogue: Catalogue, { kind, evidence }: Told): string {
  const borne = kind === 'heating' ? borneOutBy(evidence) : undefined;
  return borne ? say(catalogue, 'reason.heating', { ...borne }) : '';
}

function serviceKey(catalogue: Catalogue, episode: Told): MessageKey {
  if (episode.kind === 'probe-silent') return 'todo.service.silent';
  if (episode.kind === 'probe-fault')
    return keyFor(catalogue, 'look', wordOf(episode.evidence, 'fault') ?? '');
  return asksProbeForWater(episode) ? 'todo.service.water' : 'todo.service.other';
}

function checkKey({ kind }: Told): MessageKey {
  return kind === 'probe-fault' || kind === 'probe-silent' ? 'todo.check.probe' : `todo.check.${kind}`;
}

/** What to do, as whole sentences, from the clearest to the shortest. */
export function doingSaid(catalogue: Catalogue, episode: Told): string[] {
  const { kind, action } = episode;
  if (asksWhatWasDone(episode) && action !== 'unpack') return [say(catalogue, 'todo.asked')];
  if (action === 'none') return [say(catalogue, 'todo.none')];
  if (action === 'service') return [say(catalogue, serviceKey(catalogue, episode))];
  if (action === 'check') return [say(catalogue, checkKey(episode)), say(catalogue, 'todo.check.short')];
  const plain = say(catalogue, 'todo.unpack');
  return kind === 'damp' || kind === 'wetting' ? [say(catalogue, 'todo.unpackWater'), plain] : [plain];
}
