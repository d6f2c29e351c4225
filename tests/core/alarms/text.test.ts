import { describe, expect, test } from 'vitest';
import { DIGGING_CAUTION, FOOD_CAUTION } from '../../../services/core/alarms/cautions.js';
import { evidenceInWords } from '../../../services/core/alarms/evidence-in-words.js';
import { septetsOf } from '../../../services/core/alarms/septets.js';
import { ALARM_EVENTS, alarmText, eventLine, longText } from '../../../services/core/alarms/text.js';
import { ACTIONS, ALARM_KINDS } from '../../../services/core/model/alarm.js';
import { anAlarm, at, PIT } from './an-alarm.js';

/** What a keeper should never have to read. */
const JARGON = /°|excess|episode|threshold|null|undefined|NaN|\bRH\b|_/;

describe('the line', () => {
  test('says bed, what is wrong, what to do today and where to dig', () => {
    expect(alarmText(anAlarm(), PIT)).toBe(
      'Pit A: sand 1.8 C too warm. Open and unpack today. Dig halfway along, about a forearm down: 80 cm along ' +
        'and 35 cm across from the north-west corner, 40 cm deep.',
    );
  });

  test('where that is too long, it says the same in fewer words', () => {
    const lines = ['Pit by the road', 'Pit behind the long barn', 'Pit behind the very long barn, left'].map(
      (name) =>
        alarmText(anAlarm(), { ...PIT, name })
          .split(' Dig ')
          .at(-1),
    );
    expect(lines).toEqual([
      '80 cm along and 35 cm across from the north-west corner, about a forearm down (40 cm).',
      '80 cm along and 35 cm across from the north-west corner, about a forearm down (40 cm).',
      '80 cm along, 35 across, 40 deep from the north-west corner.',
    ]);
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

  const NAMES = ['Pit A', 'Box 2', 'Hut box north side', 'Mrs. Example pit 12'];
  const cases = ALARM_KINDS.flatMap((kind) => ACTIONS.map((action) => ({ kind, action })));

  test.each(cases)('of $kind with $action fits one message for ordinary names', ({ kind, action }) => {
    const evidence = { probe: 'p01-north', excess_C: 12.34, humidity_RH: 97.5 };
    const alarm = anAlarm({
      kind,
      action,
      evidence,
      place: { x: 148.6, y: 101.2, depth: 72.4, radius: 15 },
      clearedAt: at('2026-05-25T00:00:00Z'),
    });
    for (const name of NAMES)
      for (const event of ALARM_EVENTS) {
        const line = eventLine(event, alarm, { ...PIT, name });
        expect([line, septetsOf(line) ?? 999]).toEqual([line, expect.toSatisfy((n: number) => n <= 160)]);
        expect(line).not.toMatch(JARGON);
        expect(line.startsWith(`${name}: `)).toBe(true);
      }
  });

  test('a long name makes a longer line, never a cut one', () => {
    const name = 'a'.repeat(200);
    const line = alarmText(anAlarm(), { ...PIT, name });
    expect(line).toContain(name);
    expect(line).toMatch(/Open and unpack today\. Dig .*40 deep from the north-west corner\.$/);
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

describe('the longer text', () => {
  test('has the place, the evidence, the event time and both cautions', () => {
    const text = longText('raised', anAlarm(), PIT);
    expect(text).toContain('Open and unpack today. Where: halfway along, about a forearm down');
    expect(text).toContain('(step 2 of 2 from the top), within 15 cm of there.');
    expect(text).toContain('Why: probe p01; excess 1.8 C; rate 0.6 C per day.');
    expect(text).toContain('It was established by 2026-05-24T15:00:00Z.');
    expect(text).toContain(FOOD_CAUTION);
    expect(text).toContain(DIGGING_CAUTION);
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
    expect(cleared).toContain('It was over by 2026-05-26T03:00:00Z.');
    expect(cleared).toContain(FOOD_CAUTION);
  });

  test('without evidence there is no empty sentence', () => {
    expect(longText('raised', anAlarm({ evidence: {}, place: null }), PIT)).not.toMatch(
      /Why|Where|\.\.| {2}/,
    );
  });
});

describe('evidence', () => {
  test.each([
    [{ humidity_RH: 97.456 }, 'humidity 97.46 %'],
    [{ charge_EL: 12 }, 'charge 12 %'],
    [{ battery_V: 2.1 }, 'battery 2.1 V'],
    [{ held_h: 48 }, 'held 48 h'],
    [{ from_cm: 20 }, 'from 20 cm'],
    [{ count: 3 }, 'count 3'],
    [{ lastHeardAt: at('2026-05-24T15:00:00Z') }, 'last heard at 2026-05-24T15:00:00Z'],
    [{ basis: 'shade probe and neighbours' }, 'basis shade probe and neighbours'],
    [{}, ''],
  ])('%o reads "%s"', (evidence, words) => {
    expect(evidenceInWords(evidence)).toBe(words);
  });

  test('a number or time that is none is said to be unknown', () => {
    expect(evidenceInWords({ excess_C: Number.NaN })).toBe('excess C unknown');
    expect(evidenceInWords({ heardAt: Number.NaN })).toBe('heard at unknown');
  });
});
