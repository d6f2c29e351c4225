/** Readiness in a sentence or two. */
import type { ItemId, OverrideRecord, ReadinessVerdict } from '../model/readiness.js';
import { formatTime } from '../model/time.js';

const SHORT: Readonly<Record<ItemId, string>> = {
  curing: 'curing',
  'wounds-healed': 'wounds healed',
  'roots-sorted': 'roots sorted',
  'roots-cooled': 'roots cooled',
  roof: 'roof',
  ditch: 'ditch',
  poles: 'poles',
  'pit-open': 'days the pit stood open',
  'pit-dry': 'dry air in the pit',
  'pit-steady': 'steady air in the pit',
  'sand-grains': 'grains of the sand',
  'sand-moisture': 'water in the sand',
  'sand-temperature': 'temperature of the sand',
  'sand-cooled': 'sand cooled to the shade',
  'sand-steady': 'steady sand',
  'sand-humidity': 'dry air in the sand',
  'sand-swing': 'daily swing in the sand',
  rodents: 'rodents kept out',
  'probes-speaking': 'probes that speak',
  'probes-calibrated': 'probes calibrated',
  'next-look': 'next look',
};

interface Judged {
  readonly items: readonly unknown[];
  readonly verdict: ReadinessVerdict;
  readonly notMet: readonly ItemId[];
  readonly unknown: readonly ItemId[];
  readonly overrides: readonly OverrideRecord[];
}

const listed = (ids: readonly ItemId[]): string => ids.map((id) => SHORT[id]).join(', ');

/** The verdict with what speaks against it, and who had the bed filled all the same. */
export function readinessSentence(judged: Judged): string {
  return [verdictSentence(judged), ...judged.overrides.map(overrideSentence)].join(' ');
}

function verdictSentence({ items, verdict, notMet, unknown }: Judged): string {
  const count = (ids: readonly ItemId[]): string =>
    `${ids.length} of ${items.length} points ${ids.length === 1 ? 'is' : 'are'}`;
  if (verdict === 'ready') return `Ready: all ${items.length} points are met.`;
  if (verdict === 'unknown')
    return `Not known to be ready: ${count(unknown)} not known (${listed(unknown)}).`;
  const open = unknown.length === 0 ? '' : ` Not known: ${listed(unknown)}.`;
  return `Not ready: ${count(notMet)} not met (${listed(notMet)}).${open}`;
}

const overrideSentence = ({ by, at, reason }: OverrideRecord): string =>
  `${by} has it filled all the same (${formatTime(at)}): ${reason.replace(/[.!?]*$/, '')}.`;
