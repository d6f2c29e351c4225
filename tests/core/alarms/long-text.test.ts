import { expect, test } from 'vitest';
import { DIGGING_CAUTION, FOOD_CAUTION, UNSEEN_CAUTION } from '../../../services/core/alarms/cautions.js';
import { ALARM_EVENTS, type AlarmEvent, longText as longTextIn } from '../../../services/core/alarms/text.js';
import { ACTIONS, ALARM_KINDS, type Alarm } from '../../../services/core/model/alarm.js';
import { anAlarm, at, PIT } from './an-alarm.js';

const longText = (
  event: AlarmEvent,
  alarm: Alarm,
  bed = PIT,
  zone: string | null = 'Africa/Lusaka',
): string => longTextIn(event, alarm, bed, zone);

test('has the place, the evidence, the event time and both cautions', () => {
  const text = longText('raised', anAlarm(), PIT);
  expect(text).toContain(
    'Open and unpack today. Where: deep down, about a span and a hand from the north-west side, half-way along: ',
  );
  expect(text).toContain(
    '80 cm along and 35 cm across from the north-west corner of the opening, 40 cm deep',
  );
  expect(text).toContain('(step 2 of 2 from the top). Look within 15 cm of there.');
  expect(text).toContain('Rotting roots warm the sand around them. Take the roots out');
  expect(text).toContain('Why: probe p01; 1.8 °C warmer than a sound bed; rising by 0.6 °C a day.');
  expect(text).toContain('It was established by 2026-05-24 17:00 +02:00.');
  expect(text).toContain(FOOD_CAUTION);
  expect(text).toContain(DIGGING_CAUTION);
});

test('times of the evidence are by the site’s clock, in UTC where it has none, and refused by one that is none', () => {
  const alarm = anAlarm({ evidence: { onsetAt: '2026-05-23T22:30:00Z', threshold_C: 1.5 } });
  expect(longText('raised', alarm)).toContain('it began about 2026-05-24 00:30 +02:00; limit 1.5 °C.');
  expect(longText('raised', alarm, PIT, null)).toContain('it began about 2026-05-23 22:30 +00:00;');
  expect(() => longText('raised', alarm, PIT, 'Ridge/Station')).toThrow(/expected a known IANA name/);
});

test('has the degree sign, and a bed’s name as it is', () => {
  const named = { ...PIT, name: 'Pit 2 C' };
  for (const event of ALARM_EVENTS.filter((one) => one !== 'refined'))
    expect(longText(event, anAlarm({ clearedAt: at('2026-05-26T03:00:00Z') }), named)).toMatch(
      /^Pit 2 C: (over: |taken back: )?sand 1\.8 °C too warm\./,
    );
});

test.each(['mouldy', 'bitter', 'rotten', 'whole root', 'animals', 'trimmed', 'cooked', 'ensiled'])(
  'the food caution speaks of %s',
  (word) => {
    expect(FOOD_CAUTION).toContain(word);
  },
);

test('the digging caution says that trenches can cave in', () => {
  expect(DIGGING_CAUTION).toContain('Trenches can cave in');
});

test('a probe to be seen to needs neither caution', () => {
  const text = longText('raised', anAlarm({ kind: 'probe-silent', action: 'service' }), PIT);
  expect(text).not.toContain(FOOD_CAUTION);
  expect(text).not.toContain(DIGGING_CAUTION);
});

test('a withdrawn alarm has no caution, a cleared one has both and its time', () => {
  expect(longText('withdrawn', anAlarm(), PIT)).not.toContain(FOOD_CAUTION);
  const cleared = longText('cleared', anAlarm({ clearedAt: at('2026-05-26T03:00:00Z') }), PIT);
  expect(cleared).toContain('It was over by 2026-05-26 05:00 +02:00.');
  expect(cleared).toContain(FOOD_CAUTION);
});

const times = (text: string, part: string): number => text.split(part).length - 1;

test.each(ALARM_KINDS)('to unpack because of %s has each caution once', (kind) => {
  const text = longText('raised', anAlarm({ kind }), PIT);
  const ofProbe = kind === 'probe-fault' || kind === 'probe-silent';
  expect([FOOD_CAUTION, DIGGING_CAUTION].map((caution) => times(text, caution))).toEqual([
    ofProbe ? 0 : 1,
    1,
  ]);
  expect(times(text, 'cave in')).toBe(1);
  expect(times(text, 'ensiled')).toBe(ofProbe ? 0 : 1);
});

test('of a look that is due says plainly what no probe sees, of others not', () => {
  for (const kind of ALARM_KINDS)
    expect([
      kind,
      times(longText('raised', anAlarm({ kind, action: 'check' }), PIT), UNSEEN_CAUTION),
    ]).toEqual([kind, kind === 'inspection-due' ? 1 : 0]);
  expect(UNSEEN_CAUTION).toContain('a single rotting root further than 10 to 15 cm from every probe');
  expect(UNSEEN_CAUTION).toContain('two-weekly look by hand stays');
});

test('of a single probe that drifts says that weak warmth looks the same', () => {
  const evidence = { probe: 'p01', fault: 'drift' };
  const drifting = anAlarm({ kind: 'probe-fault', action: 'service', evidence, place: null });
  expect(longText('raised', drifting, PIT)).toContain('a weak source of warmth beside it looks the same');
});

test('shows what it has no words for as it is', () => {
  const text = longText('raised', anAlarm({ evidence: { probe: 'p01', odd_thing: 4.56789 } }), PIT);
  expect(text).toContain('Why: probe p01; odd_thing: 4.56789.');
});

test.each(ALARM_KINDS)('of %s is whole sentences for every action and event', (kind) => {
  for (const action of ACTIONS)
    for (const event of ALARM_EVENTS)
      for (const place of [null, anAlarm().place]) {
        const text = longText(event, anAlarm({ kind, action, evidence: {}, place }), PIT);
        expect(text).not.toMatch(/undefined|NaN|null|\.\.| {2}|: \./);
        expect(text).toMatch(/\.$/);
      }
});

test('without evidence there is no empty sentence', () => {
  expect(longText('raised', anAlarm({ evidence: {}, place: null }), PIT)).not.toMatch(/Why|Where|\.\.| {2}/);
});
