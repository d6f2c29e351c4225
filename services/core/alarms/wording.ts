/** The words for what is wrong and what to do about it. English. */
import type { Action, AlarmKind, Episode } from '../model/alarm.js';
import { borneOutBy } from './borne-out.js';
import { numberOf, wordOf } from './evidence-values.js';
import { dueInWords, openedAboutInWords } from './looks.js';
import { faultInWords, probeInWords } from './probe-faults.js';

type Told = Pick<Episode, 'kind' | 'action' | 'subject' | 'evidence'>;

/** The least that is not said as 0.0. */
const SAYABLE_C = 0.1;

/** As the texts by language round: by the decimal digits, so that 0.35 is 0.4 here too and not 0.3. */
const TENTHS = new Intl.NumberFormat('en', {
  ...{ minimumFractionDigits: 1, maximumFractionDigits: 1, useGrouping: false },
});

/** Plain C and no degree sign: the sign is not in the alphabet of short messages. */
function warmth({ subject, evidence }: Told): string {
  const excess_C = numberOf(evidence, 'excess_C');
  const size = excess_C !== undefined && excess_C >= SAYABLE_C ? ` ${TENTHS.format(excess_C)} C` : '';
  return `sand${size} too warm${subject === '' ? '' : ' in another place'}`;
}

/** What bears it out, as a sentence; empty where the evidence says nothing that a keeper could hold on to. */
export function reasonInWords({ kind, evidence }: Pick<Told, 'kind' | 'evidence'>): string {
  const borne = kind === 'heating' ? borneOutBy(evidence) : undefined;
  if (!borne) return '';
  const { days, probes } = borne;
  const since = days === 0 ? 'since today' : `for ${days === 1 ? 'a day' : `${days} days`}`;
  return `Rising ${since} at ${probes === 1 ? 'one probe' : `${probes} probes`}.`;
}

/** By whose clock a day is said; UTC where null. */
type Clocked = Readonly<{ timeZone: string | null }>;

const WRONG: Readonly<Record<AlarmKind, (episode: Told, bed: Clocked) => string>> = {
  heating: warmth,
  damp: () => 'damp sand',
  wetting: () => 'water in the sand',
  condensation: () => 'water drops may form on the roots',
  sprouting: () => 'roots may be sprouting',
  weevil: () => 'there may be weevils',
  'probe-fault': (episode) => `${probeInWords(episode)} ${faultInWords(episode.evidence).shows}`,
  'probe-silent': (episode) => `no word from ${probeInWords(episode)}`,
  'inspection-due': ({ evidence }, { timeZone }) => dueInWords(evidence, timeZone),
};

/** A sign of water that a broken humidity sensor gives as well. */
const asksProbeForWater = ({ kind, action }: Told): boolean =>
  action === 'service' && (kind === 'damp' || kind === 'wetting' || kind === 'condensation');

/** Whether it is the question what was done, which nobody wrote down. */
export const asksWhatWasDone = ({ kind, evidence }: Pick<Told, 'kind' | 'evidence'>): boolean =>
  kind === 'inspection-due' && wordOf(evidence, 'because') === 'asked';

/** What is wrong, in a few words that can follow a bed's name and a colon. */
export function wrongInWords(episode: Told, bed: Clocked): string {
  if (asksProbeForWater(episode)) return `${probeInWords(episode)} is wet or broken`;
  return WRONG[episode.kind](episode, bed);
}

/** The same as a whole sentence, or as the question that it is. */
export function openingInWords(episode: Told, bed: Clocked): string {
  return asksWhatWasDone(episode)
    ? openedAboutInWords(episode.evidence, bed.timeZone)
    : `${wrongInWords(episode, bed)}.`;
}

const UNPACK_MORE: Partial<Record<AlarmKind, string>> = {
  damp: 'Find where the water comes in.',
  wetting: 'Find where the water comes in.',
};

const AT_NEXT_VISIT: Readonly<Record<AlarmKind, string>> = {
  heating: 'feel and smell the sand',
  damp: 'feel the sand and take a sample',
  wetting: 'find where the water comes in',
  condensation: 'feel the roots for wet',
  sprouting: 'look for sprouts',
  weevil: 'look for holes in the roots',
  'probe-fault': 'look at the probe',
  'probe-silent': 'look at the probe',
  'inspection-due': 'open it, look and smell',
};

function serviceInWords(episode: Told): string {
  if (episode.kind === 'probe-silent') return 'See to its battery, cable and seat.';
  if (episode.kind === 'probe-fault') return `Look at this probe: ${faultInWords(episode.evidence).look}.`;
  if (asksProbeForWater(episode)) return 'Feel the sand at the probe: if it is dry, change the probe.';
  return 'See to the probe.';
}

const DOING: Readonly<Record<Action, (episode: Told) => string>> = {
  unpack: ({ kind }) => ['Open and unpack today.', UNPACK_MORE[kind]].filter(Boolean).join(' '),
  check: ({ kind }) => `Next visit: ${AT_NEXT_VISIT[kind]}.`,
  service: serviceInWords,
  none: () => 'Nothing to do now.',
};

/** What to do, as whole sentences. */
export function doingInWords(episode: Told): string {
  if (asksWhatWasDone(episode) && episode.action !== 'unpack') return 'Write down what was done.';
  return DOING[episode.action](episode);
}

/** What the sentence that says the place begins with. */
export const PLACE_LEAD: Readonly<Record<Action, string>> = {
  unpack: 'Dig:',
  check: 'Where:',
  service: 'Where:',
  none: 'Where:',
};
