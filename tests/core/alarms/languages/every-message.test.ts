/** Every kind, action and event in every language: one part in GSM letters, two in UCS-2, and nothing left unsaid. */
import { describe, expect, test } from 'vitest';
import { LANGUAGE_CODES, shortMessage } from '../../../../services/core/alarms/languages/index.js';
import { ALARM_EVENTS } from '../../../../services/core/alarms/text.js';
import {
  ACTIONS,
  ALARM_KINDS,
  type AlarmKind,
  type Evidence,
} from '../../../../services/core/model/alarm.js';

const FAULTS = [
  'stuck',
  'sensor-code',
  'noisy',
  'dead-humidity',
  'clock',
  'drift',
  'humidity-drift',
  'calibration-due',
  'pulled',
  'misplaced',
  'rusty',
  'toString',
];
const DUE = ['two-weeks', 'warmth', 'sprouting', 'weevils', 'curiosity', 'asked'];
const GROWN = { onsetAt: '2026-09-14T03:00:00Z', excessAt: '2026-09-24T15:00:00Z', probes: 12 };
const DETAILS: Partial<Record<AlarmKind, readonly Evidence[]>> = {
  heating: [{}, { excess_C: 0.3 }, { excess_C: 12.3, ...GROWN }],
  'probe-fault': FAULTS.map((fault) => ({ fault })),
  'inspection-due': DUE.flatMap((because) => [{ because }, { because, since: '2026-09-24T15:00:00Z' }]),
};
const SUBJECTS: Partial<Record<AlarmKind, readonly string[]>> = {
  heating: ['', 'second', 'third', 'elsewhere'],
};

/** The longest words for a place: nothing in the middle, sums of two arm lengths from the walls. */
const PLACES = [
  { x: 136.6, y: 91.2, depth: 22.4, radius: 15 },
  { x: 115, y: 30, depth: 25, radius: 15 },
  { x: -30, y: 150, depth: 60, radius: 15 },
  null,
];
const STEPS = [{ length: 300, width: 120, height: 50 }];
const PROBES = ['p01-north', 'p'.repeat(32)];
const NAME = 'Mbale pit 12';

interface Told {
  readonly event: (typeof ALARM_EVENTS)[number];
  readonly evidence: Evidence;
  readonly subject: string;
  readonly place: (typeof PLACES)[number];
}

const tellings = (kind: AlarmKind): Told[] =>
  ALARM_EVENTS.flatMap((event) =>
    (DETAILS[kind] ?? [{}]).flatMap((details) =>
      PROBES.flatMap((probe) =>
        (SUBJECTS[kind] ?? ['']).flatMap((subject) =>
          PLACES.map((place) => ({
            event,
            subject,
            place,
            evidence: { probe, excess_C: 12.34, ...details },
          })),
        ),
      ),
    ),
  );

/** What a keeper should never have to read. */
const JARGON = /[{}°]|undefined|null|NaN|object|unknown|,,| {2}|\.\.|^ | $/;

const cases = LANGUAGE_CODES.flatMap((language) => ALARM_KINDS.map((kind) => ({ language, kind })));

describe('fits, and says the bed', () => {
  test.each(cases)('$kind in $language', ({ language, kind }) => {
    const limit = language === 'am' ? { alphabet: 'ucs2', most: 2 } : { alphabet: 'gsm', most: 1 };
    for (const action of ACTIONS)
      for (const { event, ...told } of tellings(kind))
        for (const options of [{}, { mayAnswer: true, number: 3 }, { mayAnswer: true, number: 999 }]) {
          const bed = { name: NAME, steps: STEPS, timeZone: null };
          const message = shortMessage(event, { kind, action, ...told }, bed, { language, ...options });
          const { text, alphabet, parts } = message;
          if (
            alphabet !== limit.alphabet ||
            parts > limit.most ||
            JARGON.test(text) ||
            !text.startsWith(NAME)
          )
            expect.fail(`${event} ${kind} ${action}: ${parts} of ${alphabet}: ${text}`);
          const isAnswered = options.number !== undefined && (event === 'raised' || event === 'refined');
          if (text.includes(`OK ${options.number}`) !== isAnswered) expect.fail(`no way to answer: ${text}`);
        }
  });
});

test.each(LANGUAGE_CODES)('in %s no two kinds are told alike', (language) => {
  const texts = ALARM_KINDS.map((kind) => {
    const told = { kind, action: 'check', subject: '', evidence: { probe: 'p01' }, place: null } as const;
    return shortMessage('raised', told, { name: NAME, steps: STEPS, timeZone: null }, { language }).text;
  });
  expect(new Set(texts).size).toBe(ALARM_KINDS.length);
});

test.each(LANGUAGE_CODES)('in %s no two faults or reasons to look are told alike', (language) => {
  const said = (kind: AlarmKind, evidence: Evidence): string =>
    shortMessage(
      'raised',
      { kind, action: 'service', subject: '', evidence, place: null },
      { name: NAME, steps: STEPS, timeZone: null },
      { language },
    ).text;
  const faults = FAULTS.slice(0, -1).map((fault) => said('probe-fault', { fault, probe: 'p01' }));
  const reasons = DUE.map((because) => said('inspection-due', { because }));
  expect(new Set([...faults, ...reasons]).size).toBe(FAULTS.length - 1 + DUE.length);
});
