import { describe, expect, test } from 'vitest';
import { shortMessage } from '../../../services/core/alarms/languages/index.js';
import { septetsOf } from '../../../services/core/alarms/septets.js';
import { ALARM_EVENTS, alarmText, eventLine } from '../../../services/core/alarms/text.js';
import { ACTIONS, ALARM_KINDS, type Alarm, type AlarmKind } from '../../../services/core/model/alarm.js';
import { anAlarm, at, PIT } from './an-alarm.js';

const FAULTS = ['stuck', 'sensor-code', 'noisy', 'dead-humidity', 'clock', 'drift', 'pulled', 'misplaced'];

/** What a keeper should never have to read. */
const JARGON = /°|excess|episode|threshold|null|undefined|NaN|\bRH\b|_/;

describe('the line', () => {
  test('says bed, what is wrong, what to do today and where to dig', () => {
    expect(alarmText(anAlarm(), PIT)).toBe(
      'Pit A: sand 1.8 C too warm. Open and unpack today. Dig: deep down (about a forearm), about a span and a ' +
        'hand from the north-west side, half-way along.',
    );
  });

  // 0.35 and 1.25 as numbers of 64 bits lie a little below and at the half.
  test.each([
    [0.35, '0.4'],
    [1.25, '1.3'],
    [0.94, '0.9'],
    [9.96, '10.0'],
  ])('says %d °C as the short message does: %s', (excess_C, said) => {
    const alarm = anAlarm({ evidence: { excess_C } });
    const words = `sand ${said} C too warm`;
    expect(alarmText(alarm, PIT)).toContain(words);
    expect(shortMessage('raised', alarm, PIT, { language: 'en' }).text).toContain(words);
  });

  test('where that is too long, it says the same in fewer words', () => {
    const place = { x: 45, y: 20, depth: 40, radius: 15 };
    const lines = [
      'Pit',
      'Pit behind the barn',
      'Pit behind the long barn, left side, far',
      'a'.repeat(60),
    ].map((name) =>
      alarmText(anAlarm({ place }), { ...PIT, name })
        .split(' Dig: ')
        .at(-1),
    );
    expect(lines).toEqual([
      'deep down, about a span from the north-west side and about a forearm from the north-west end.',
      'deep down, a span from NW side, a forearm from NW end.',
      'deep down, a span from NW side, a forearm from NW end.',
      'deep down, 20 cm from NW side, 45 cm from NW end.',
    ]);
  });

  test('of a second source in a bed it says that it is another place', () => {
    expect(alarmText(anAlarm({ subject: 'second', place: null }), PIT)).toBe(
      'Pit A: sand 1.8 C too warm in another place. Open and unpack today.',
    );
  });

  test('without a place it says nothing of digging', () => {
    expect(alarmText(anAlarm({ place: null }), PIT)).toBe(
      'Pit A: sand 1.8 C too warm. Open and unpack today.',
    );
  });

  test('a silent probe is named', () => {
    const silent = anAlarm({
      kind: 'probe-silent',
      action: 'service',
      evidence: { probe: 'p07' },
      place: null,
    });
    expect(alarmText(silent, PIT)).toBe('Pit A: no word from probe p07. See to its battery, cable and seat.');
  });

  test.each([
    ['stuck', 'gives the same value all the time. Look at this probe: sensor and cable.'],
    ['sensor-code', 'sends error codes, not values. Look at this probe: plug, cable and battery.'],
    ['noisy', 'gives values that jump about. Look at this probe: plug, cable, damp inside.'],
    ['dead-humidity', 'no longer measures humidity. Look at this probe: change its humidity sensor.'],
    ['clock', 'has a wrong clock. Look at this probe: set its clock.'],
    [
      'drift',
      'drifts away from what it should show. Look at this probe: compare it, feel the sand beside it.',
    ],
    [
      'pulled',
      'seems to have been pulled out. Look at this probe: put it back, write down when and where it lies.',
    ],
    [
      'misplaced',
      'seems to lie elsewhere than written. Look at this probe: measure where it lies, write it down.',
    ],
    ['rusty', 'gives wrong values. Look at this probe: battery, cable and seat.'],
    ['toString', 'gives wrong values. Look at this probe: battery, cable and seat.'],
  ])('a probe with the fault %s is named, with what to look at', (fault, words) => {
    const evidence = { fault, probe: 'p03' };
    const faulty = anAlarm({ kind: 'probe-fault', action: 'service', evidence, place: null });
    expect(alarmText(faulty, PIT)).toBe(`Pit A: probe p03 ${words}`);
  });

  test('a probe is named by what the alarm is about where the evidence does not', () => {
    const about = { action: 'service', subject: 'p05', evidence: {}, place: null } as const;
    expect(alarmText(anAlarm({ ...about, kind: 'probe-silent' }), PIT)).toContain('no word from probe p05.');
    expect(alarmText(anAlarm({ ...about, kind: 'probe-fault' }), PIT)).toContain('probe p05 gives wrong');
    expect(alarmText(anAlarm({ ...about, kind: 'probe-fault', subject: '' }), PIT)).toContain(
      'a probe gives',
    );
  });

  test('water that a broken sensor shows as well is asked of the probe first', () => {
    const wet = anAlarm({ kind: 'wetting', action: 'service', evidence: { probe: 'p02' }, place: null });
    expect(alarmText(wet, PIT)).toBe(
      'Pit A: probe p02 is wet or broken. Feel the sand at the probe: if it is dry, change the probe.',
    );
  });

  const aLook = (evidence: Alarm['evidence'], action: Alarm['action'] = 'check'): Alarm =>
    anAlarm({ kind: 'inspection-due', action, evidence, place: null });

  test.each([
    ['two-weeks', 'time for the two-weekly look'],
    ['warmth', 'time to look inside, early because it is warm'],
    ['sprouting', 'time to look inside, sprouts are likely'],
    ['weevils', 'time to look inside, weevils are likely'],
    ['curiosity', 'time to look inside'],
  ])('a look due because of %s says so, and what no probe sees', (because, words) => {
    expect(alarmText(aLook({ because }), PIT)).toBe(
      `Pit A: ${words}. Next visit: open it, look and smell. No probe sees a single root that rots 15 cm away.`,
    );
  });

  test.each([
    [{ since: '2026-05-24T15:00:00Z' }, 'about 24 May'],
    [{ onsetAt: at('2026-09-01T00:00:00Z') }, 'about 1 Sept'],
    [{ since: '2026-05-24T22:30:00Z' }, 'about 25 May'],
    [{ since: 'then' }, 'lately'],
    [{ since: Number.NaN }, 'lately'],
    [{}, 'lately'],
  ])('handling that nobody told is asked about, with %o', (evidence, when) => {
    for (const action of ['check', 'none', 'service'] as const)
      expect(alarmText(aLook({ because: 'asked', ...evidence }, action), PIT)).toBe(
        `Pit A: was this bed opened or sand taken out ${when}? Write down what was done.`,
      );
  });

  test.each([
    ['Africa/Lusaka', '1 Jan'],
    ['America/St_Johns', '31 Dec'],
    [null, '31 Dec'],
  ])('days are those of the calendar on the wall in %s', (timeZone, day) => {
    const asked = aLook({ because: 'asked', since: '2026-12-31T22:30:00Z' });
    expect(alarmText(asked, { ...PIT, timeZone })).toContain(`taken out about ${day}?`);
    expect(shortMessage('raised', asked, { ...PIT, timeZone }, { language: 'en' }).text).toContain(
      `opened about ${day},`,
    );
  });

  test('a look that was due and is over is not said to be back to normal', () => {
    expect(eventLine('cleared', aLook({ because: 'two-weeks' }), PIT)).toBe(
      'Pit A: over: time for the two-weekly look.',
    );
    expect(eventLine('cleared', aLook({ because: 'asked', since: '2026-05-24T15:00:00Z' }), PIT)).toBe(
      'Pit A: over: was it opened about 24 May.',
    );
  });

  const NAMES = ['Pit A', 'Mrs. Example pit 12 ', 'N'.repeat(20)];
  const PROBES = ['p01-north', 'p'.repeat(32)];
  /** The longest words for a place: nothing in the middle, an arm and a forearm from the end. */
  const PLACES = [
    { x: 136.6, y: 91.2, depth: 22.4, radius: 15 },
    { x: 115, y: 30, depth: 25, radius: 15 },
    null,
  ];
  const LONG_PIT = [{ length: 300, width: 120, height: 50 }];
  const DETAILS: Partial<Record<AlarmKind, readonly Alarm['evidence'][]>> = {
    'probe-fault': FAULTS.map((fault) => ({ fault })),
    'inspection-due': ['two-weeks', 'warmth', 'sprouting', 'weevils', 'asked'].map((because) => ({
      because,
      since: '2026-09-24T15:00:00Z',
    })),
  };
  interface Case {
    kind: AlarmKind;
    action: Alarm['action'];
    subject?: string;
  }
  const cases: Case[] = ALARM_KINDS.flatMap((kind) => ACTIONS.map((action) => ({ kind, action })));

  test.each([
    ...cases,
    ...ACTIONS.map((action) => ({ kind: 'heating' as const, action, subject: 'second' })),
  ])('of $kind with $action fits one message for names of 20', ({ kind, action, subject = '' }: Case) => {
    for (const details of DETAILS[kind] ?? [{}])
      for (const probe of PROBES)
        for (const place of PLACES) {
          const evidence = { probe, excess_C: 12.34, humidity_RH: 97.5, ...details };
          const alarm = anAlarm({
            kind,
            action,
            subject,
            evidence,
            place,
            clearedAt: at('2026-05-25T00:00:00Z'),
          });
          for (const name of NAMES)
            for (const event of ALARM_EVENTS) {
              const line = eventLine(event, alarm, { steps: LONG_PIT, name, timeZone: null });
              expect([line, septetsOf(line) ?? 999]).toEqual([
                line,
                expect.toSatisfy((n: number) => n <= 160),
              ]);
              expect(line).not.toMatch(JARGON);
              expect(line.startsWith(`${name}: `)).toBe(true);
            }
        }
  });

  test('a long name makes a longer line, never a cut one', () => {
    const name = 'a'.repeat(200);
    const line = alarmText(anAlarm(), { ...PIT, name });
    expect(line).toContain(name);
    expect(line).toMatch(/Open and unpack today\. Dig: deep down, 35 cm from NW side, half-way along\.$/);
  });

  test('a name outside the alphabet of short messages stays as it is', () => {
    expect(alarmText(anAlarm(), { ...PIT, name: 'Šumava pit' })).toMatch(
      /^Šumava pit: sand 1\.8 C too warm\./,
    );
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY, 0, 0.04, -1, '1.8', undefined])(
    'an excess of %s is not said as a number',
    (excess_C) => {
      const evidence = excess_C === undefined ? {} : { excess_C };
      expect(alarmText(anAlarm({ evidence, place: null }), PIT)).toMatch(/^Pit A: sand too warm\. /);
    },
  );

  test('a place that is none is refused', () => {
    const place = { x: Number.NaN, y: 0, depth: 0, radius: 0 };
    expect(() => alarmText(anAlarm({ place }), PIT)).toThrow(
      expect.objectContaining({ code: 'OUT_OF_DOMAIN' }),
    );
  });

  test('when it is over, a bed that was not opened is still to be looked at', () => {
    expect(eventLine('cleared', anAlarm(), PIT)).toBe(
      'Pit A: over: sand 1.8 C too warm. Readings are back to normal. If you have not opened it, look at ' +
        'your next visit.',
    );
  });

  test('an alarm that is taken back says why', () => {
    expect(eventLine('withdrawn', anAlarm(), PIT)).toBe(
      'Pit A: taken back: sand 1.8 C too warm. Readings that came in late do not bear it out. Keep up the ' +
        'two-weekly look.',
    );
  });
});
