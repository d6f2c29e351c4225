/** What an alarm means for the roots, and what to do once at the bed: for the longer text. */
import type { AlarmKind, Episode } from '../model/alarm.js';
import { faultInWords } from './probe-faults.js';
import { asksWhatWasDone } from './wording.js';

type Told = Pick<Episode, 'kind' | 'action' | 'evidence'>;

const DRY_SAND = 'Put only firm, dry roots back, in dry sand.';
const UNWATCHED =
  'Until the probe is seen to, the sand around it is watched less well: feel it by hand at each visit.';

/**
 * To feel and smell the sand, to unpack at once what is warm or smells bad, and what to do with sprouts are common
 * practice, no source. That sprouted roots which are firm and clean are eaten: Abidin et al. 2016 (practice). That
 * weevils come in with the roots: Tomlins et al. 1998.
 */
const MEANING: Readonly<Record<AlarmKind, string>> = {
  heating: 'Rotting roots warm the sand around them.',
  damp: 'Roots in damp sand heat, sprout and rot. Dry sand runs through the fingers, damp sand clings.',
  wetting: 'Water has reached a probe. Look above that place first: roof, film, walls.',
  condensation:
    'Warm, moist air leaves water on roots that are colder than its dew point. Keep the bed closed while the air ' +
    'outside is warm and moist, and let wet roots dry before they go back.',
  sprouting:
    'Rub off sprouts shorter than about a thumbnail (1.5 cm) and put the root back; eat firm, clean roots with ' +
    'longer ones, or keep them for seed.',
  weevil:
    'Weevils come in with the roots as eggs and hatch in a warm bed. Take out every root with holes, and bury it ' +
    'away from the store.',
  'probe-fault': UNWATCHED,
  'probe-silent': UNWATCHED,
  'inspection-due':
    'Feel the sand in several places, and write down what you found, also when it was nothing.',
};

const ONCE_AT_THE_BED: Partial<Record<`${AlarmKind} ${string}`, string>> = {
  'heating unpack': `Take the roots out from that place outwards, and feel and smell each. ${DRY_SAND}`,
  'heating check': 'If the sand there feels warm or smells bad, unpack at once.',
  'damp unpack': DRY_SAND,
  'wetting unpack': DRY_SAND,
  'condensation unpack': DRY_SAND,
};

/** Sentences about the alarm of one kind and action. */
export function meaningInWords(episode: Told): string {
  const { kind, action, evidence } = episode;
  if (asksWhatWasDone(episode))
    return 'Handling changes what the probes should show: until it is written down, they are trusted less.';
  if (action === 'service' && !kind.startsWith('probe-')) return UNWATCHED;
  const more = kind === 'probe-fault' ? faultInWords(evidence).more : ONCE_AT_THE_BED[`${kind} ${action}`];
  return [MEANING[kind], more].filter(Boolean).join(' ');
}
