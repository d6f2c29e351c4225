/** What bears an alarm of warmth out: how long it has grown, and how many probes show it. */
import { describe, expect, test } from 'vitest';
import { borneOutBy } from '../../../services/core/alarms/borne-out.js';
import { LANGUAGE_CODES, shortMessage } from '../../../services/core/alarms/languages/index.js';
import { ONE_MESSAGE_septets, septetsOf } from '../../../services/core/alarms/septets.js';
import { alarmText, eventLine, longText } from '../../../services/core/alarms/text.js';
import type { Evidence } from '../../../services/core/model/alarm.js';
import { anAlarm, PIT } from './an-alarm.js';

const GROWN: Evidence = {
  ...{ probe: 'p12', excess_C: 0.3, excessAt: '2026-07-23T00:00:00Z' },
  ...{ probes: 3, power_W: 5.1, onsetAt: '2026-07-21T00:00:00Z', strength: 17.2 },
};
const alarm = (change: Evidence = {}) => anAlarm({ evidence: { ...GROWN, ...change } });

test('a small excess says since when it rises and at how many probes, within one message', () => {
  const text = alarmText(alarm(), PIT);
  expect(text).toMatch(
    /^Pit A: sand 0\.3 C too warm\. Rising for 2 days at 3 probes\. Open and unpack today\. Dig: deep down/,
  );
  expect(septetsOf(text)).toBeLessThanOrEqual(ONE_MESSAGE_septets);
});

test.each([
  ['a day', { onsetAt: '2026-07-22T00:00:00Z', probes: 1 }, 'Rising for a day at one probe.'],
  ['no whole day', { onsetAt: '2026-07-22T18:00:00Z' }, 'Rising since today at 3 probes.'],
])('%s is said as such, in the short message of English as in the text', (_name, change, said) => {
  expect(alarmText(alarm(change), PIT)).toContain(said);
  expect(shortMessage('raised', alarm(change), PIT, { language: 'en' }).text).toContain(said);
});

test.each(LANGUAGE_CODES)(
  'in %s it is said with both figures, where to dig and how to answer',
  (language) => {
    const { text, parts } = shortMessage(
      'raised',
      alarm({ probes: 4, onsetAt: '2026-07-14T00:00:00Z' }),
      PIT,
      {
        ...{ language, mayAnswer: true, number: 7 },
      },
    );
    expect(text).toMatch(/9\D.*4\D|4\D.*9\D/);
    expect(text).toContain('OK 7');
    expect(parts).toBeLessThanOrEqual(language === 'am' ? 2 : 1);
  },
);

test('the longer text has it too', () => {
  const text = longText('raised', alarm(), PIT, 'Africa/Lusaka');
  expect(text).toContain('Rising for 2 days at 3 probes.');
});

describe('nothing is said of it', () => {
  test.each([
    ['without its beginning', { onsetAt: 'some day' }],
    ['without the time of the evidence', { excessAt: '' }],
    ['that began after what it rests on', { onsetAt: '2026-07-24T00:00:00Z' }],
    ['that no probe shows', { probes: 0 }],
    ['whose probes are no number', { probes: Number.NaN }],
    ['whose probes are a word', { probes: 'many' }],
  ])('%s', (_name, change) => {
    expect(borneOutBy({ ...GROWN, ...change })).toBeUndefined();
    expect(alarmText(alarm(change), PIT)).toMatch(/too warm\. Open and unpack today\./);
    expect(shortMessage('raised', alarm(change), PIT, { language: 'en' }).text).not.toContain('Rising');
  });

  test('by an alarm of something else, nor when it is over', () => {
    expect(alarmText(anAlarm({ kind: 'damp', evidence: GROWN }), PIT)).not.toContain('Rising');
    expect(eventLine('cleared', alarm(), PIT)).not.toContain('Rising');
  });
});

test('where the place would not fit beside it, the place stays', () => {
  const far = { ...PIT, name: 'The long pit behind the old school of Mbale' };
  const place = { x: 40, y: 30, depth: 40, radius: 15 };
  const text = alarmText({ ...alarm(), place }, far);
  expect(text).toContain('Dig: ');
  expect(text).not.toContain('Rising');
});
