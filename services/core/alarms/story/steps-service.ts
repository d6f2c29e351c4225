/** What to look at on a probe that is to be seen to, step by step. English. */
import type { Place } from '../../model/alarm.js';
import { DIGGING_CAUTION } from '../cautions.js';
import { wordOf } from '../evidence-values.js';
import { faultInWords, probeInWords } from '../probe-faults.js';
import { type OpenedBed, step, type TodoStep, type ToldAlarm, whereInWords } from './todo-step.js';

const SAND_CAUTION =
  'Feel the sand beside it, and smell it: warm sand or a bad smell means unpack at once, whatever the probe says.';
const DRY_HANDS = 'Dry your hands before you open a probe, and keep it out of the sun.';

/** By the fault that the watch names. Common practice, no source. */
const BY_FAULT: ReadonlyMap<string, readonly string[]> = new Map([
  ['stuck', ['Look at the sensor and its cable: cuts, bites, a loose plug. Unplug it and plug it in again.']],
  ['sensor-code', ['Look at plug, cable and battery: the probe says itself that it does not measure.']],
  ['noisy', ['Look at the plug and for damp inside: dry it, tighten it, and seal it again.']],
  ['dead-humidity', ['Change its humidity sensor: once wetted for long it seldom comes back.']],
  [
    'clock',
    [
      'Set its clock, or let it take the time from the network: its readings are kept, and not used meanwhile.',
    ],
  ],
  [
    'drift',
    [
      'Feel the sand beside the probe against the sand a step away.',
      'Bury a calibrated probe beside it for a day and compare the two.',
      'If they differ, change the probe or have it calibrated.',
    ],
  ],
  [
    'humidity-drift',
    [
      'Feel the sand beside the probe: damp there means unpack, and find where the water comes in.',
      'If it is dry, hold a calibrated probe beside it for a day and compare the two.',
    ],
  ],
  ['calibration-due', ['Take it to the bench, or bury a calibrated probe beside it for a day.']],
  ['pulled', ['Put it back where it lay, and write down when it was out and where it lies now.']],
  ['misplaced', ['Measure where it lies: along, across, and how deep. Write it down.']],
]);

const SILENT = [
  'Look at its battery: is it charged, are its contacts clean?',
  'Look at cable, plug and seat, and at the aerial: is it covered, bent or wet?',
  'See whether other probes of the bed speak: if none does, look at the gateway and its power first.',
] as const;

const WET = [
  'Feel the sand at the probe. If it is wet, unpack the bed today and find where the water comes in.',
  'If it is dry, change the probe: its humidity sensor has failed.',
] as const;

function lookAt({ kind, evidence }: ToldAlarm): readonly string[] {
  if (kind === 'probe-silent') return SILENT;
  if (!kind.startsWith('probe-')) return WET;
  return BY_FAULT.get(wordOf(evidence, 'fault') ?? '') ?? [`Look at its ${faultInWords(evidence).look}.`];
}

/** @param probeAt null where it is not known where the probe lies */
export function serviceSteps(alarm: ToldAlarm, bed: OpenedBed, probeAt: Place | null): TodoStep[] {
  const place = probeAt ?? alarm.place;
  const where = place === null ? '' : ` It lies ${whereInWords(place, bed, '')}.`;
  return [
    step(
      `Find ${probeInWords(alarm)} of ${bed.name}.${where}`,
      SAND_CAUTION,
      ...(bed.kind === 'box' ? [] : [DIGGING_CAUTION]),
    ),
    ...lookAt(alarm).map((text, at) => (at === 0 ? step(text, DRY_HANDS) : step(text))),
    step('Wait for its next reading, and see whether it is as the others are.'),
    step('Write down what you did to the probe, and when.'),
  ];
}
