/** What follows from a change of a site description, for the watch and for people, in sentences. */
import { peopleNotes } from '../core/alarms/people-notes.js';
import type { Person, SiteDescription } from '../core/model/site.js';
import { formatTime } from '../core/model/time.js';
import type { Loaded } from '../registry/index.js';
import type { Directory, KnownBed } from './directory.js';
import type { Station } from './station.js';

export interface Surroundings {
  readonly station: Station;
  /** Whether messages can go out this way at all. */
  readonly hasWay: (via: string) => boolean;
}

interface Change {
  /** The sites as they stood before. */
  readonly before: Directory;
  readonly loaded: Loaded;
  /** What was taken in. */
  readonly description: SiteDescription;
  /** Wall clock, ms. */
  readonly now: number;
}

export function whatFollows(surroundings: Surroundings, change: Change): string[] {
  const { station } = surroundings;
  const beds = [...station.directory.beds.values()].filter(({ site }) => site.id === change.loaded.site);
  return [
    ...beds.flatMap((known) => ofBed(change.before.beds.get(known.bed.id), known, station)),
    ...change.description.probes.flatMap(({ id }) => ofAdopted(station, change, id)),
    ...keptFillings(change.loaded),
    ...ofPeople(surroundings, change),
  ];
}

function ofBed(before: KnownBed | undefined, known: KnownBed, station: Station): string[] {
  const { name } = known.bed;
  if (!before) return [`${name} is watched as soon as a probe that stands in it measures.`];
  if (before.digest === known.digest) return [];
  const begun = station.watchers.get(known.bed.id)?.judgedTo !== undefined;
  return [
    ...(placesOf(before) === placesOf(known)
      ? []
      : [
          `${name}: with other probes, or probes elsewhere, its warmth is learned anew from then on. A source of warmth is told about five days later at the soonest; damp is judged already.`,
        ]),
    ...(begun
      ? [`${name} is judged again from its beginning: alarms may come, change, or be taken back.`]
      : []),
  ];
}

const placesOf = ({ watched }: KnownBed): string => JSON.stringify([...watched.placements]);

/** Readings that were kept apart while nobody knew the probe. */
function ofAdopted({ archive, directory }: Station, { before, loaded }: Change, id: string): string[] {
  if (before.find(loaded.site, id)) return [];
  const apart = archive.apart.list().find((one) => one.site === loaded.site && one.probe === id);
  if (!apart) return [];
  const first = directory.find(loaded.site, id)?.stays[0]?.from;
  const early = first !== undefined && apart.firstAt < first;
  return [
    `${id}: ${apart.readings} readings that were kept apart since ${formatTime(apart.firstAt)} are taken in.`,
    ...(early
      ? [`${id}: those from before ${formatTime(first)} are set aside, as nobody said where it stood then.`]
      : []),
  ];
}

const keptFillings = ({ filledOtherwise }: Loaded): string[] =>
  filledOtherwise.map(
    ({ bed, at }) =>
      `${bed} stays filled since ${formatTime(at)}, as was written down at the bed: a new filling is written down there.`,
  );

const WAY_WORDS: Readonly<Record<string, string>> = {
  sms: 'no short messages leave this service: it was started without a modem and without a gateway',
  email: 'no e-mails leave this service: it was started without a mail server',
};

function ofPeople({ hasWay }: Surroundings, { description: { people } }: Change): string[] {
  const missing = Object.entries(WAY_WORDS).filter(([via]) => uses(people, via) && !hasWay(via));
  return [...missing.map(([, words]) => words), ...peopleNotes(people)].map(sentence);
}

const uses = (people: readonly Person[], via: string): boolean =>
  people.some(({ reach }) => reach.some((way) => way.via === via));

const sentence = (text: string): string =>
  `${text.slice(0, 1).toUpperCase()}${text.slice(1)}${text.endsWith('.') ? '' : '.'}`;
