import { beforeEach, describe, expect, test } from 'vitest';
import { ChannelBench, ending } from './a-channel.js';

let b: ChannelBench;
beforeEach(() => {
  b = new ChannelBench();
});

describe('what comes unasked', () => {
  test.each([
    ['+CMTI: "SM",3', { type: 'stored', memory: 'SM', index: 3 }],
    ['+CDSI: "SR",12', { type: 'stored', memory: 'SR', index: 12 }],
    ['+CREG: 2', { type: 'registration' }],
    ['+CREG: 1,"00AB","1234"', { type: 'registration' }],
    ['+CEREG: 5', { type: 'registration' }],
    ['+CPIN: NOT READY', { type: 'sim' }],
    ['RING', { type: 'ring' }],
    ['+CMT: ,4\r\n0411AABBCC', { type: 'message', pdu: '0411AABBCC' }],
    ['+CMT: "a, 1",4\r\n0411AABBCC', { type: 'message', pdu: '0411AABBCC' }],
    ['+CDS: 4\r\n0411AABBCC', { type: 'report', pdu: '0411AABBCC' }],
    // The service centre left out: the length says so.
    ['+CDS: 4\r\n06AABBCC', { type: 'report', pdu: '0006AABBCC' }],
  ])('%j is told of: between commands, and in the middle of an answer', async (lines, event) => {
    const channel = b.open();
    await b.say(`\r\n${lines}\r\n`);
    expect(b.events).toEqual([event]);
    const end = ending(channel.command('AT+CSQ'));
    await b.say('AT+CSQ\r\r\n+CSQ: 1,99\r\n', `\r\n${lines}\r\n`, '\r\nOK\r\n');
    expect(b.events).toEqual([event, event]);
    expect(end.of).toEqual(['+CSQ: 1,99']);
  });

  test('an answer to AT+CREG? and AT+CPIN? is no news', async () => {
    const channel = b.open();
    const registration = ending(channel.command('AT+CREG?', { expect: '+CREG:' }));
    await b.say('+CREG: 2\r\n', '+CREG: 1,5\r\nOK\r\n');
    expect(registration.of).toEqual(['+CREG: 1,5']);
    expect(b.events).toEqual([{ type: 'registration' }]);
    const sim = ending(channel.command('AT+CPIN?', { expect: '+CPIN:' }));
    await b.say('+CPIN: READY\r\nOK\r\n');
    expect(sim.of).toEqual(['+CPIN: READY']);
    expect(b.events).toHaveLength(1);
  });

  test('between prompt and result of a message', async () => {
    const end = ending(b.open().command('AT+CMGS=2', { expect: '+CMGS:', message: '0011AA' }));
    await b.say('\r\n+CMTI: "SM",3\r\n> ', '\r\n+CDS: 4\r\n0411AABBCC\r\n', 'RING\r\n+CMGS: 7\r\nOK\r\n');
    expect(end.of).toEqual(['+CMGS: 7']);
    expect(b.events.map((event) => event.type)).toEqual(['stored', 'report', 'ring']);
  });

  test.each(['+CMTI: "SM"', '+CMTI: SM,1', '+CMTI: "../etc",1', '+CMTI: "SM",123456789', '+CDS: x', '+CMT:'])(
    '%j is nothing',
    async (line) => {
      b.open();
      await b.say(`${line}\r\n`);
      expect(b.events).toEqual([]);
    },
  );

  test('a heading whose digits are lost does not swallow what follows', async () => {
    const end = ending(b.open().command('AT+CSQ'));
    await b.say('+CMT: ,24\r\n+CSQ: 1,99\r\nOK\r\n');
    expect(end.of).toEqual(['+CSQ: 1,99']);
    expect(b.events).toEqual([]);
  });
});
