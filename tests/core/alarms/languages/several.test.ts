/** Messages about several alarms, about none, and the subjects of e-mails. */
import { describe, expect, test } from 'vitest';
import {
  type BundleItem,
  bundleMessage,
  bundleSubject,
  drillMessage,
  drillSubject,
  escalationNote,
  eventSubject,
  LANGUAGE_CODES,
  summaryMessage,
  summarySubject,
  unreachedNote,
} from '../../../../services/core/alarms/languages/index.js';
import { ALARM_EVENTS } from '../../../../services/core/alarms/text.js';
import { ALARM_KINDS, type AlarmKind } from '../../../../services/core/model/alarm.js';
import { anAlarm, PIT } from '../an-alarm.js';

const item = (name: string, kind: AlarmKind, number?: number): BundleItem => ({
  bed: { name },
  episode: { kind },
  number,
});
const THREE = [item('Pit A', 'damp', 3), item('Box B', 'weevil', 5), item('Box C', 'probe-silent')];
const EN = { language: 'en', mayAnswer: true };

describe('a bundle', () => {
  test('names each bed with what is wrong, and the numbers to answer with', () => {
    expect(bundleMessage(THREE, EN)).toEqual({
      text: '3 beds need a look: Pit A damp, Box B weevils, Box C probe silent. Answer OK 3 5.',
      alphabet: 'gsm',
      parts: 1,
    });
  });

  test('two alarms of one bed are one bed', () => {
    const text = '1 bed needs a look: Pit A damp, Pit A warm.';
    expect(bundleMessage([item('Pit A', 'damp'), item('Pit A', 'heating')], EN).text).toBe(text);
  });

  test('what cannot be named within two parts is counted, and not asked to be answered', () => {
    const many = Array.from({ length: 40 }, (_, index) => item(`Pit number ${index + 1}`, 'damp', index + 1));
    const { text, parts } = bundleMessage(many, EN);
    const named = text.match(/Pit number \d+ damp/g)?.length ?? 0;
    expect(parts).toBe(2);
    expect(text).toContain(`40 beds need a look: Pit number 1 damp, Pit number 2 damp`);
    expect(text).toContain(`and ${40 - named} more. Answer OK 1 2`);
    expect(text.endsWith(` ${named}.`)).toBe(true);
  });

  test('a single name that is too long stays whole', () => {
    expect(bundleMessage([item('n'.repeat(400), 'damp')], EN).text).toContain('n'.repeat(400));
  });

  test.each(LANGUAGE_CODES)('in %s every kind is named briefly, within two parts', (language) => {
    const all = ALARM_KINDS.map((kind, index) => item(`B${index}`, kind, index + 1));
    const { text, parts, alphabet } = bundleMessage(all, { language, mayAnswer: true });
    expect(parts).toBeLessThanOrEqual(2);
    expect(alphabet).toBe(language === 'am' ? 'ucs2' : 'gsm');
    expect(text).not.toMatch(/[{}#]/);
    expect(text).toContain('B0 ');
    expect(text).toContain('OK 1 2');
  });

  test('of nothing is refused', () => {
    expect(() => bundleMessage([], EN)).toThrow(expect.objectContaining({ code: 'OUT_OF_DOMAIN' }));
    expect(() => bundleMessage([item('Pit', 'damp', 0)], EN)).toThrow(/short number/);
  });
});

describe('a summary', () => {
  test('counts, and names the gravest', () => {
    expect(summaryMessage({ alarms: 27, beds: 9, first: THREE }, EN).text).toBe(
      '27 alarms in 9 beds. See to these first: Pit A damp, Box B weevils, Box C probe silent. Answer OK ALL.',
    );
    expect(summaryMessage({ alarms: 1, beds: 1, first: [] }, EN).text).toBe(
      '1 alarm in 1 bed. Answer OK ALL.',
    );
    expect(summaryMessage({ alarms: 1, beds: 1, first: [] }, { language: 'en' }).text).toBe(
      '1 alarm in 1 bed.',
    );
  });

  test('names as many as fit one part', () => {
    const first = Array.from({ length: 30 }, (_, index) => item(`Pit number ${index}`, 'damp'));
    const { text, parts } = summaryMessage({ alarms: 30, beds: 30, first }, EN);
    expect(parts).toBe(1);
    expect(text).toContain('Pit number 0 damp, Pit number 1 damp');
    expect(text).toMatch(/Answer OK ALL\.$/);
  });

  test.each([
    [0, 1],
    [1, 0],
    [Number.NaN, 1],
  ])('of %s alarms in %s beds is refused', (alarms, beds) => {
    expect(() => summaryMessage({ alarms, beds, first: [] }, EN)).toThrow(
      expect.objectContaining({ code: 'OUT_OF_DOMAIN' }),
    );
  });

  test.each(LANGUAGE_CODES)('in %s plurals and thousands stay in the alphabet', (language) => {
    for (const alarms of [1, 2, 5, 1234]) {
      const { text, alphabet } = summaryMessage({ alarms, beds: alarms, first: [] }, { language });
      expect(alphabet).toBe(language === 'am' ? 'ucs2' : 'gsm');
      expect(text.replace(/[^\d]/g, '')).toBe(`${alarms}${alarms}`);
    }
  });
});

describe('a drill', () => {
  test('says that it is none', () => {
    expect(drillMessage(PIT, { ...EN, number: 3 }).text).toBe(
      'TEST, no alarm: Pit A. Nothing to do at the bed. Answer OK 3.',
    );
  });

  test.each(LANGUAGE_CODES)('in %s fits, with the bed and the answer', (language) => {
    const { text, parts } = drillMessage(
      { name: 'Mbale pit 12' },
      { language, mayAnswer: true, number: 999 },
    );
    expect(parts).toBeLessThanOrEqual(language === 'am' ? 2 : 1);
    expect(text).toContain('Mbale pit 12');
    expect(text).toContain('OK 999');
  });
});

describe('a note that somebody did not answer', () => {
  test('in English', () => {
    expect(escalationNote('Amina', 3.9, 'en')).toBe('Not answered by Amina since 3 h.');
    expect(escalationNote('Amina', 0.9, 'en')).toBe('Not answered by Amina.');
    expect(unreachedNote('Amina', 'en')).toBe('Amina cannot be reached.');
  });

  test.each(LANGUAGE_CODES)('in %s', (language) => {
    expect(escalationNote('Amina', 3, language)).toMatch(/Amina.*3/);
    expect(escalationNote('Amina', 0, language)).toMatch(/^[^\d]*Amina[^\d]*$/);
    expect(unreachedNote('Amina', language)).not.toBe(escalationNote('Amina', 0, language));
  });

  test.each([-1, Number.NaN])('of %s hours is refused', (hours) => {
    expect(() => escalationNote('Amina', hours, 'en')).toThrow(
      expect.objectContaining({ code: 'OUT_OF_DOMAIN' }),
    );
  });
});

describe('subjects', () => {
  test('of events', () => {
    const place = { x: 45, y: 20, depth: 40, radius: 15 };
    expect(ALARM_EVENTS.map((event) => eventSubject(event, anAlarm({ place }), PIT, 'en'))).toEqual([
      'Pit A: sand 1.8 C too warm',
      'Pit A: dig elsewhere',
      'Pit A: over: sand 1.8 C too warm',
      'Pit A: taken back: sand 1.8 C too warm',
    ]);
    expect(eventSubject('refined', anAlarm({ place: null }), PIT, 'en')).toBe('Pit A: sand 1.8 C too warm');
  });

  test('of several and of none', () => {
    expect(bundleSubject(THREE, 'en')).toBe('3 beds need a look');
    expect(summarySubject({ alarms: 27, beds: 1 }, 'en')).toBe('27 alarms in 1 bed');
    expect(drillSubject(PIT, 'en')).toBe('TEST, no alarm: Pit A');
  });

  test.each(LANGUAGE_CODES)('in %s hold no line break and nothing that was not filled in', (language) => {
    const bed = { name: 'Pit\r\nBcc: x', timeZone: null };
    const subjects = [
      ...ALARM_EVENTS.map((event) => eventSubject(event, anAlarm(), bed, language)),
      drillSubject(bed, language),
      bundleSubject(THREE, language),
      summarySubject({ alarms: 2, beds: 2 }, language),
    ];
    expect(subjects.join('')).not.toMatch(/[\r\n{}#]/);
  });
});
