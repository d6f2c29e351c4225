/** The words for what is wrong and what to do about it. English. */
import type { Action, AlarmKind, Episode, Evidence } from '../model/alarm.js';

const numberOf = (evidence: Evidence, name: string): number | undefined => {
  const value = evidence[name];
  return typeof value === 'number' && Number.isFinite(value) ? value : undefined;
};

const probeOf = (evidence: Evidence): string =>
  typeof evidence['probe'] === 'string' ? `probe ${evidence['probe']}` : 'a probe';

/** The least that is not said as 0.0. */
const SAYABLE_C = 0.1;

/** Plain C and no degree sign: the sign is not in the alphabet of short messages. */
function warmth(evidence: Evidence): string {
  const excess_C = numberOf(evidence, 'excess_C');
  return excess_C !== undefined && excess_C >= SAYABLE_C
    ? `sand ${excess_C.toFixed(1)} C too warm`
    : 'sand too warm';
}

const WRONG: Readonly<Record<AlarmKind, (evidence: Evidence) => string>> = {
  heating: warmth,
  damp: () => 'damp sand',
  wetting: () => 'water in the sand',
  condensation: () => 'water drops may form on the roots',
  sprouting: () => 'roots may be sprouting',
  weevil: () => 'there may be weevils',
  'probe-fault': (evidence) => `${probeOf(evidence)} gives wrong values`,
  'probe-silent': (evidence) => `no word from ${probeOf(evidence)}`,
  'inspection-due': () => 'time to look inside',
};

/** What is wrong, in a few words that can follow a bed's name and a colon. */
export function wrongInWords(episode: Pick<Episode, 'kind' | 'evidence'>): string {
  return WRONG[episode.kind](episode.evidence);
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

const DOING: Readonly<Record<Action, (kind: AlarmKind) => string>> = {
  unpack: (kind) => ['Open and unpack today.', UNPACK_MORE[kind]].filter(Boolean).join(' '),
  check: (kind) => `Next visit: ${AT_NEXT_VISIT[kind]}.`,
  service: (kind) =>
    kind.startsWith('probe-') ? 'See to its battery, cable and seat.' : 'See to the probe.',
  none: () => 'Nothing to do now.',
};

/** What to do, as whole sentences. */
export function doingInWords(episode: Pick<Episode, 'kind' | 'action'>): string {
  return DOING[episode.action](episode.kind);
}

/** What the sentence that says the place begins with. */
export const PLACE_LEAD: Readonly<Record<Action, string>> = {
  unpack: 'Dig',
  check: 'Where:',
  service: 'Where:',
  none: 'Where:',
};
