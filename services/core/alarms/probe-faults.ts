/** What can be wrong with a probe, in the words of whoever goes to see to it. */
import type { Episode, Evidence } from '../model/alarm.js';
import { wordOf } from './evidence-values.js';

export interface FaultInWords {
  /** What the probe does: follows its name. */
  readonly shows: string;
  /** What to look at. */
  readonly look: string;
  /** What there is to know beyond that: judgement. */
  readonly more?: string;
}

const FAULTS: ReadonlyMap<string, FaultInWords> = new Map([
  ['stuck', { shows: 'gives the same value all the time', look: 'sensor and cable' }],
  ['sensor-code', { shows: 'sends error codes, not values', look: 'plug, cable and battery' }],
  ['noisy', { shows: 'gives values that jump about', look: 'plug, cable, damp inside' }],
  ['dead-humidity', { shows: 'no longer measures humidity', look: 'change its humidity sensor' }],
  ['clock', { shows: 'has a wrong clock', look: 'set its clock' }],
  [
    'drift',
    {
      shows: 'drifts away from what it should show',
      look: 'compare it, feel the sand beside it',
      more:
        'A single probe that drifts is most likely at fault, but a weak source of warmth beside it looks ' +
        'the same: warm sand or a bad smell there means unpack at once.',
    },
  ],
  [
    'humidity-drift',
    {
      shows: 'shows humidity that drifts away from the others',
      look: 'feel the sand beside it, then compare it',
      more:
        'A humidity that leaves all others steadily is most likely the sensor, but water that comes to one place ' +
        'slowly looks the same: damp sand there means unpack and find where it comes in.',
    },
  ],
  [
    'calibration-due',
    { shows: 'is due for calibration', look: 'bench it, or hold a reference beside it for a day' },
  ],
  [
    'pulled',
    { shows: 'seems to have been pulled out', look: 'put it back, write down when and where it lies' },
  ],
  [
    'misplaced',
    { shows: 'seems to lie elsewhere than written', look: 'measure where it lies, write it down' },
  ],
]);

const ANY_FAULT: FaultInWords = { shows: 'gives wrong values', look: 'battery, cable and seat' };

/** The words for a fault by its name; undefined for a name that has none. */
export function knownFault(name: string): FaultInWords | undefined {
  return FAULTS.get(name);
}

/** The words for the fault that the evidence names, or for any fault. */
export function faultInWords(evidence: Evidence): FaultInWords {
  return FAULTS.get(wordOf(evidence, 'fault') ?? '') ?? ANY_FAULT;
}

/** `probe p01`: the probe that the alarm is about, or else the one in the evidence; `a probe` where neither is named. */
export function probeInWords({
  kind,
  subject,
  evidence,
}: Pick<Episode, 'kind' | 'subject' | 'evidence'>): string {
  const ofProbe = kind === 'probe-fault' || kind === 'probe-silent';
  const probe = (ofProbe && subject) || wordOf(evidence, 'probe');
  return probe === undefined ? 'a probe' : `probe ${probe}`;
}
