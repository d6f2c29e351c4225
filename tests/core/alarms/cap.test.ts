import { describe, expect, test } from 'vitest';
import { type CapBody, type CapOptions, capIdentifier, capOf } from '../../../services/core/alarms/cap.js';
import { ALARM_EVENTS, type AlarmEvent } from '../../../services/core/alarms/text.js';
import { aBody, afterRaising, optionsFor, SENT_AT, someOptions } from './a-cap.js';
import { at } from './an-alarm.js';
import { all, pairsOf, type Read, readCap, textAt } from './cap-reader.js';

const ID = 'ridge-station.pit-a.heating.unpack.20260524T150000Z';

const read = (body: CapBody = aBody(), options: CapOptions = someOptions()): Read =>
  readCap(capOf(body, options));

const infoOf = (alert: Read): Read => all(alert, 'info')[0] ?? alert;

const told = (event: AlarmEvent): Read => read(aBody({}, { event }), optionsFor(event));

test('a raising is an alert with a name, a sender and a time', () => {
  const alert = read();
  expect(alert.name).toBe('alert');
  expect(alert.children.map(({ name, text }) => [name, text]).slice(0, 7)).toEqual([
    ['identifier', `${ID}.raised`],
    ['sender', 'alarms@ridge.example'],
    ['sent', '2026-05-24T15:02:03-00:00'],
    ['status', 'Actual'],
    ['msgType', 'Alert'],
    ['scope', 'Restricted'],
    ['restriction', 'Keepers of the store'],
  ]);
});

test('the texts are those of the message, the times those of the event', () => {
  const body = aBody({}, { subject: 'Pit A: unpack', text: 'Unpack Pit A today.' });
  const info = infoOf(read(body));
  expect(Object.fromEntries(info.children.map(({ name, text }) => [name, text]))).toMatchObject({
    language: 'en',
    event: 'Sand too warm',
    effective: '2026-05-24T15:02:03-00:00',
    onset: '2026-05-24T15:00:00-00:00',
    expires: '2026-06-07T15:02:03-00:00',
    senderName: 'Ridge station',
    headline: 'Pit A: unpack',
    description: body.longText,
    instruction: 'Unpack Pit A today.',
  });
});

test('without a subject and a short message the line stands for both', () => {
  const info = infoOf(read());
  expect(textAt(info, 'headline')).toBe(aBody().line);
  expect(textAt(info, 'instruction')).toBe('Pit A: sand 1.8 °C too warm. Open and unpack today.');
});

test('the area is the bed in words, with nothing of where it lies on the earth', () => {
  const [area] = all(infoOf(read()), 'area');
  expect(area?.children.map(({ name, text }) => [name, text])).toEqual([
    ['areaDesc', 'Ridge station: Pit A'],
  ]);
});

test('what the alarm rests on goes along as pairs', () => {
  const info = infoOf(read());
  expect(pairsOf(info, 'eventCode')).toEqual({ 'sandlarder:kind': 'heating' });
  expect(pairsOf(info, 'parameter')).toEqual({
    alarm: ID,
    action: 'unpack',
    priority: 'high',
    place_x_cm: '80',
    place_y_cm: '35',
    place_depth_cm: '40',
    place_radius_cm: '15',
    'evidence.probe': 'p01',
    'evidence.excess_C': '1.8',
    'evidence.rate_C_per_day': '0.6',
  });
});

test('a gap is absent: no place, no number', () => {
  const info = infoOf(read(aBody({ place: null, evidence: { excess_C: Number.NaN, probe: 'p01' } })));
  expect(Object.keys(pairsOf(info, 'parameter'))).toEqual(['alarm', 'action', 'priority', 'evidence.probe']);
});

test('a signed link to answer with is not passed on', () => {
  const body = { ...aBody(), answerUrl: 'https://store.example/answer/secret' };
  expect(capOf(body, someOptions())).not.toContain('secret');
});

test.each([
  ['raised', 'Alert', 'Execute', 'Immediate', 'Severe', 'Likely'],
  ['refined', 'Update', 'Execute', 'Immediate', 'Severe', 'Likely'],
  ['cleared', 'Update', 'AllClear', 'Past', 'Severe', 'Likely'],
  ['withdrawn', 'Cancel', 'AllClear', 'Past', 'Severe', 'Unlikely'],
] as const)('%s is %s, %s, %s, %s, %s', (event, msgType, ...codes) => {
  const alert = told(event);
  expect(textAt(alert, 'msgType')).toBe(msgType);
  const info = infoOf(alert);
  expect(['responseType', 'urgency', 'severity', 'certainty'].map((name) => textAt(info, name))).toEqual(
    codes,
  );
});

test.each([
  ['heating', 'unpack', 'medium', 'Execute', 'Expected', 'Moderate', 'Likely'],
  ['damp', 'check', 'high', 'Assess', 'Future', 'Severe', 'Possible'],
  ['damp', 'check', 'low', 'Assess', 'Future', 'Minor', 'Possible'],
  ['damp', 'service', 'high', 'Execute', 'Future', 'Minor', 'Possible'],
  ['probe-silent', 'service', 'high', 'Execute', 'Future', 'Minor', 'Observed'],
  ['inspection-due', 'check', 'medium', 'Assess', 'Future', 'Moderate', 'Observed'],
  ['condensation', 'none', 'low', 'None', 'Unknown', 'Minor', 'Possible'],
] as const)('%s to %s at %s priority is %s, %s, %s, %s', (kind, action, priority, ...codes) => {
  const info = infoOf(read(aBody({ kind, action, priority })));
  expect(['responseType', 'urgency', 'severity', 'certainty'].map((name) => textAt(info, name))).toEqual(
    codes,
  );
});

test.each(['refined', 'cleared', 'withdrawn'] as const)('%s refers to what went out before', (event) => {
  expect(textAt(told(event), 'references')).toBe(
    `alarms@ridge.example,${ID}.raised,2026-05-24T15:02:03-00:00`,
  );
});

test('several earlier messages stand with blanks between', () => {
  const earlier = [
    { identifier: 'a', sentAt: SENT_AT },
    { identifier: 'b', sentAt: SENT_AT + 1000 },
  ];
  const alert = read(aBody({}, { event: 'cleared' }), afterRaising({ earlier }));
  expect(textAt(alert, 'references')).toBe(
    'alarms@ridge.example,a,2026-05-24T15:02:03-00:00 alarms@ridge.example,b,2026-05-24T15:02:04-00:00',
  );
});

test('a raising refers to nothing, whatever went before', () => {
  expect(textAt(read(aBody(), afterRaising({ toldBefore: 1 })), 'references')).toBeUndefined();
});

test('each event of an alarm has a name of its own, and each time it is told again', () => {
  const names = ALARM_EVENTS.flatMap((event) => [0, 1, 2].map((n) => capIdentifier(ID, event, n)));
  expect(new Set(names).size).toBe(12);
  expect(capIdentifier(ID, 'raised', 0)).toBe(capIdentifier(ID, 'raised'));
});

test('a private message names its addresses, in quotes where they hold blanks', () => {
  const scope = { type: 'Private', addresses: ['keeper@ridge.example', 'night  watch'] } as const;
  const alert = read(aBody(), someOptions({ scope }));
  expect(textAt(alert, 'scope')).toBe('Private');
  expect(textAt(alert, 'addresses')).toBe('keeper@ridge.example "night watch"');
  expect(textAt(alert, 'restriction')).toBeUndefined();
});

test('words, expiry and contact can be given', () => {
  const info = infoOf(
    read(
      aBody(),
      someOptions({
        language: 'pt-MZ',
        eventName: 'Areia quente',
        expiresAt: at('2026-05-25T00:00:00Z'),
        contact: '+258 84 000 0000',
      }),
    ),
  );
  expect(textAt(info, 'language')).toBe('pt-MZ');
  expect(textAt(info, 'event')).toBe('Areia quente');
  expect(textAt(info, 'expires')).toBe('2026-05-25T00:00:00-00:00');
  expect(textAt(info, 'contact')).toBe('+258 84 000 0000');
});

test('the news that it is over stands for a day', () => {
  expect(textAt(told('cleared'), 'info/expires')).toBe('2026-05-25T16:02:03-00:00');
});

test('equal arguments give equal text', () => {
  expect(capOf(aBody(), someOptions())).toBe(capOf(aBody(), someOptions()));
});

describe('text from outside', () => {
  const NASTY = '</headline><info>&\u0000\u001b[31m\ufffe\ud800"]]>';

  test('stays text, without what XML forbids', () => {
    const body = aBody({ evidence: { [NASTY]: NASTY } }, { line: NASTY, longText: NASTY, bedName: NASTY });
    const xml = capOf(body, someOptions({ siteName: NASTY }));
    for (const one of '\u0000\u001b\ufffe\ud800') expect(xml).not.toContain(one);
    const alert = readCap(xml);
    expect(all(alert, 'info')).toHaveLength(1);
    expect(textAt(alert, 'info/headline')).toBe('</headline><info>&[31m"]]>');
    expect(pairsOf(infoOf(alert), 'parameter')).toMatchObject({
      'evidence.</headline><info>&[31m"]]>': '</headline><info>&[31m"]]>',
    });
  });

  test.each([
    ['line', { line: '\u0000 ' }],
    ['longText', { longText: '' }],
    ['text', { text: ' \u0007' }],
  ])('a %s of which nothing is left is refused', (_name, otherwise) => {
    expect(() => capOf(aBody({}, otherwise), someOptions())).toThrow('must be a text, got');
  });
});

describe('what the specification does not allow is refused', () => {
  test.each([
    ['a blank in the sender', { sender: 'alarms at ridge' }, /^sender must be 1 to 200 characters/],
    ['a comma in the sender', { sender: 'a,b' }, /^sender/],
    ['an ampersand in the sender', { sender: 'a&b' }, /^sender/],
    ['an empty sender', { sender: '' }, /^sender/],
    ['an unprintable sender', { sender: 'a\u0000b' }, /^sender/],
    [
      'a private message to nobody',
      { scope: { type: 'Private', addresses: [] } },
      /^addresses must be one or more/,
    ],
    [
      'quotes in an address',
      { scope: { type: 'Private', addresses: ['a"b'] } },
      /^address must be without quotes/,
    ],
    ['an empty restriction', { scope: { type: 'Restricted', restriction: ' ' } }, /^restriction/],
    ['no time', { sentAt: Number.NaN }, /^sentAt must be a time within 2000..2100/],
    ['a time of a clock that was never set', { sentAt: 0 }, /^sentAt/],
    ['an end before the beginning', { expiresAt: SENT_AT }, /^expiresAt must be after sentAt/],
    ['an end that is no number', { expiresAt: Number.NaN }, /^expiresAt/],
    ['a language that is none', { language: 'English, please' }, /^language must be a BCP 47 tag/],
    ['half a message before', { toldBefore: 0.5 }, /^toldBefore must be a count/],
    ['a count below nothing', { toldBefore: -1 }, /^toldBefore/],
    ['an empty name of the site', { siteName: '' }, /^siteName/],
    ['an empty contact', { contact: '' }, /^contact/],
  ] as const)('%s', (_what, otherwise, message) => {
    expect(() => capOf(aBody(), someOptions(otherwise))).toThrow(message);
  });

  test.each(['refined', 'cleared', 'withdrawn'] as const)('%s that refers to nothing', (event) => {
    for (const earlier of [undefined, []])
      expect(() => capOf(aBody({}, { event }), someOptions({ earlier }))).toThrow(
        `earlier must be one or more messages for the event "${event}"`,
      );
  });

  test('an earlier message with a comma in its name', () => {
    const options = afterRaising({ earlier: [{ identifier: 'a,b', sentAt: SENT_AT }] });
    expect(() => capOf(aBody({}, { event: 'cleared' }), options)).toThrow(/^earlier identifier/);
  });
});
