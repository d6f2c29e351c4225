import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decodeReceived } from '../../../services/senders/gsm/pdu-deliver.js';
import { outcomeOf } from '../../../services/senders/gsm/pdu-status-report.js';
import { alphabetOf } from '../../../services/senders/gsm/user-data.js';
import { concatenated, deliver, statusReport, timeStamp } from './network-side.js';

const SEED = 20260524;
const AT = Date.parse('2026-05-24T15:00:07Z');

describe('published messages', () => {
  // The worked example that many notes on the data unit give: sent on 29 March 1999 at 15:16:59, zone 08 quarters.
  test('hellohello from 27838890001', () => {
    expect(
      decodeReceived('07917283010010F5040BC87238880900F10000993092516195800AE8329BFD4697D9EC37'),
    ).toEqual({
      type: 'deliver',
      from: '27838890001',
      sentAt: Date.parse('1999-03-29T15:16:59+02:00'),
      text: 'hellohello',
    });
  });

  // From a public repository's tests: the number and the text are given there.
  test('hellohello from +447785016005', () => {
    expect(
      decodeReceived('0791448720003023240C914477581006500000916042113312800AE8329BFD4697D9EC37'),
    ).toMatchObject({ from: '+447785016005', text: 'hellohello' });
  });

  // From memory.
  test('How are you? from +31641600986', () => {
    expect(
      decodeReceived('07911326040000F0040B911346610089F60000208062917314080CC8F71D14969741F977FD07'),
    ).toMatchObject({ from: '+31641600986', text: 'How are you?' });
  });

  // A published walk through a status report; the service centre was left out there.
  test('a report about a message to +20121875612', () => {
    expect(decodeReceived('0006000B910221815716F2709021510121807090215101718000')).toEqual({
      type: 'status-report',
      reference: 0,
      recipient: '+20121875612',
      sentAt: Date.parse('2007-09-12T15:10:12+02:00'),
      dischargedAt: Date.parse('2007-09-12T15:10:17+02:00'),
      outcome: 'delivered',
      status: 0,
    });
  });

  // From a public repository's tests: zone +9 h.
  test('a report about a message to 1234', () => {
    expect(decodeReceived('00060004802143113022415204631130224152046300')).toMatchObject({
      recipient: '1234',
      sentAt: Date.parse('2011-03-22T14:25:40+09:00'),
    });
  });
});

describe('senders', () => {
  // TS 23.040 section 9.1.2.5: type 101, septets; the length counts semi-octets that hold something.
  test.each(['hellohello', 'SANDBED', 'A', 'Sandlarder'])('%s by name', (from) => {
    expect(decodeReceived(deliver({ from, text: 'a', at: AT }))).toMatchObject({ from });
  });

  test('by digits, stars and letters of section 9.1.2.3', () => {
    expect(decodeReceived('00040681A2CBED0000265042510070000141')).toMatchObject({ from: '2*#abc' });
  });

  test.each(['15', 'FF'])('an address of 0x%s semi-octets is refused', (length) => {
    expect(() => decodeReceived(`0004${length}91${'1'.repeat(300)}`)).toThrow('address: expected at most 20');
  });
});

describe('time stamps of section 9.2.3.11', () => {
  test.each([0, 4, 8, 36, 56, -1, -12, -48])('%d quarters of an hour east', (zone_quarters) => {
    const pdu = deliver({ from: '+46701234567', text: 'a', at: AT, zone_quarters });
    expect(decodeReceived(pdu)).toMatchObject({ sentAt: AT });
  });

  test.each([
    ['no time at all', '00000000000000'],
    ['a month 13', '62314251007000'],
    ['a 30 February', '62200351007000'],
    ['an hour 24', '62504242007000'],
    ['a minute 60', '62504251067000'],
    ['digits that are none', 'A2504251007000'],
    ['a zone of 79 quarters', '62504251007097'],
  ])('%s is unknown, the message is read all the same', (_, stamp) => {
    const pdu = deliver({ from: '+46701234567', text: 'a', at: AT }).replace(timeStamp(AT), stamp);
    expect(decodeReceived(pdu)).toMatchObject({ text: 'a', sentAt: undefined });
  });
});

describe('headers', () => {
  const part = (header: string, text = 'abc') =>
    decodeReceived(deliver({ from: '+46701234567', text, at: AT, header }));

  test('an 8-bit and a 16-bit reference', () => {
    expect(part('0003AB0302')).toMatchObject({
      text: 'abc',
      concatenation: { reference: 0xab, total: 3, number: 2 },
    });
    expect(part('0804ABCD0302')).toMatchObject({
      text: 'abc',
      concatenation: { reference: 0xabcd, total: 3, number: 2 },
    });
  });

  test('other elements beside it are passed over', () => {
    expect(part('2501010003AB0302')).toMatchObject({ text: 'abc', concatenation: { reference: 0xab } });
  });

  // Section 9.2.3.24.1: an element that makes no sense is ignored.
  test.each([
    ['part 0', '0003AB0300'],
    ['a part past the last', '0003AB0304'],
    ['no parts', '0003AB0000'],
    ['a wrong length', '0002AB03'],
    ['an element past the end of the header', '00FFAB0302'],
    ['a header of one octet', '00'],
    ['an empty header', ''],
  ])('%s is no concatenation', (_, header) => {
    const read = part(header);
    expect(read).toMatchObject({ text: 'abc' });
    expect(read).not.toHaveProperty('concatenation');
  });

  test('a header longer than the message is refused', () => {
    const pdu = deliver({ from: '+46701234567', text: 'abc', at: AT }).replace('F504', 'F544');
    expect(() => decodeReceived(pdu)).toThrow('user data: expected a header within 3 octets');
  });
});

test('UCS-2 with surrogates, and octets that are no text', () => {
  const from = '+46701234567';
  expect(decodeReceived(deliver({ from, text: '🍠°', at: AT, coding: 'ucs-2' }))).toMatchObject({
    text: '🍠°',
  });
  expect(decodeReceived(deliver({ from, text: 'abc', at: AT, coding: 'octets' }))).toMatchObject({
    text: undefined,
  });
});

// TS 23.038 section 4.
test.each([
  [0x00, 'gsm-7'],
  [0x04, 'octets'],
  [0x08, 'ucs-2'],
  [0x0c, 'gsm-7'],
  [0x11, 'gsm-7'],
  [0x18, 'ucs-2'],
  [0x20, 'octets'],
  [0x58, 'ucs-2'],
  [0x80, 'gsm-7'],
  [0xc0, 'gsm-7'],
  [0xd0, 'gsm-7'],
  [0xe0, 'ucs-2'],
  [0xf0, 'gsm-7'],
  [0xf4, 'octets'],
])('scheme %d is %s', (scheme, alphabet) => {
  expect(alphabetOf(scheme)).toBe(alphabet);
});

// TS 23.040 section 9.2.3.15.
test.each([
  [0x00, 'delivered'],
  [0x01, 'forwarded'],
  [0x02, 'failed'],
  [0x20, 'still-trying'],
  [0x3f, 'still-trying'],
  [0x40, 'failed'],
  [0x46, 'failed'],
  [0x60, 'failed'],
  [0x80, 'failed'],
  [0xff, 'failed'],
])('status %d is %s', (status, outcome) => {
  expect(outcomeOf(status)).toBe(outcome);
});

test('what a network writes is what is read', () => {
  const character = fc.constantFrom('a', 'à', '€', '@', '{', '\n');
  fc.assert(
    fc.property(
      fc.array(character, { maxLength: 70 }),
      fc.integer({ min: 1, max: 9 }),
      (characters, number) => {
        const text = characters.join('');
        const header = concatenated(5, 9, number);
        const pdu = deliver({ from: '+46701234567', text, at: AT, header });
        expect(decodeReceived(pdu)).toMatchObject({ text, sentAt: AT, concatenation: { number } });
      },
    ),
    { seed: SEED },
  );
});

describe('what cannot be read', () => {
  const whole = deliver({ from: '+46701234567', text: 'hello', at: AT });

  test('cut off anywhere it is refused, whatever is left', () => {
    for (let length = 0; length < whole.length; length += 1)
      expect(() => decodeReceived(whole.slice(0, length))).toThrow(/expected/);
    const report = statusReport({ reference: 1, to: '+46701234567', at: AT, status: 0 });
    for (let length = 0; length < report.length; length += 2)
      expect(() => decodeReceived(report.slice(0, length))).toThrow(/expected/);
  });

  test.each(['', 'xyz', '0', '00 04', `${whole}\n`])('%j is refused', (digits) => {
    expect(() => decodeReceived(digits)).toThrow(/expected/);
  });

  test('a message that a telephone has stored to send is refused', () => {
    expect(() => decodeReceived('0011000B916407281553F80000AA0AE8329BFD4697D9EC37')).toThrow('got type 1');
  });

  test('any octets are read or refused with the one error', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (octets) => {
        try {
          decodeReceived(Buffer.from(octets).toString('hex'));
        } catch (error) {
          expect(error).toMatchObject({ name: 'SandlarderError', code: 'BAD_MESSAGE' });
        }
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });
});
