import { beforeEach, describe, expect, test } from 'vitest';
import { AT_LIMITS } from '../../../services/senders/gsm/at-channel.js';
import { AtError } from '../../../services/senders/gsm/at-error.js';
import { LINE_LENGTH } from '../../../services/senders/gsm/at-lines.js';
import { ChannelBench, ending } from './a-channel.js';
import { quiet } from './memory-line.js';

let b: ChannelBench;
beforeEach(() => {
  b = new ChannelBench();
});

describe('an answer', () => {
  test('is its lines without the final result', async () => {
    const end = ending(b.open().command('AT+CSQ'));
    await b.say('\r\n+CSQ: 20,99\r\n', '\r\nOK\r\n');
    expect(b.written).toBe('AT+CSQ\r');
    expect(end.of).toEqual(['+CSQ: 20,99']);
  });

  test('comes with the echo of the command, and in any pieces', async () => {
    const end = ending(b.open().command('AT+CSQ'));
    await b.say('AT', '+CS', 'Q\r', '\r', '\n+CSQ: 2', '0,99\r', '\n\r\nO', 'K', '\r');
    expect(end.of).toEqual(['+CSQ: 20,99']);
  });

  test('comes through noise on the line', async () => {
    const end = ending(b.open().command('AT+CSQ'));
    await b.say(
      Buffer.from([0xff, 0x00, 0x80, 0x0d, 0xfe]),
      '\r\n\xff+CSQ: 20\x00,99\r\n',
      '\x80\x81OK\x7f\r\n',
    );
    expect(end.of).toEqual(['+CSQ: 20,99']);
  });

  test('with lines of line feeds or carriage returns alone', async () => {
    const end = ending(b.open().command('AT+CSQ'));
    await b.say('+CSQ: 1,99\nOK\n');
    expect(end.of).toEqual(['+CSQ: 1,99']);
  });
});

describe('a refusal', () => {
  test.each([
    ['ERROR', {}],
    ['+CME ERROR: 10', { cme: 10 }],
    ['+CMS ERROR: 38', { cms: 38 }],
    ['+CMS ERROR:500', { cms: 500 }],
    ['+CME ERROR: SIM not inserted', {}],
    ['NO CARRIER', {}],
    ['COMMAND NOT SUPPORT', {}],
  ])('%s', async (result, codes) => {
    const end = ending(b.open().command('AT+CPIN="1234"'));
    await b.say(`\r\n${result}\r\n`);
    expect(end.of).toBeInstanceOf(AtError);
    expect(end.of).toMatchObject({ failure: 'refused', cme: undefined, cms: undefined, ...codes });
    expect((end.of as AtError).message).toContain(`modem: expected OK to AT+CPIN, got ${result}`);
    expect((end.of as AtError).message).not.toContain('1234');
  });

  test('says in plain words what a technician can mend', async () => {
    const end = ending(b.open().command('AT+CMGF=0'));
    await b.say('+CMS ERROR: 310\r\n');
    expect((end.of as AtError).message).toBe('modem: expected OK to AT+CMGF, got +CMS ERROR: 310 (no SIM)');
  });

  test('the OK that a modem sends after it is not taken for the next command', async () => {
    const channel = b.open();
    const first = ending(channel.command('AT+ONE'));
    const second = ending(channel.command('AT+TWO'));
    await b.say('\r\nERROR\r\n\r\nOK\r\n');
    expect(first.of).toMatchObject({ failure: 'refused' });
    expect(second.of).toBeUndefined();
    expect(b.written).toBe('AT+ONE\rAT+TWO\r');
    await b.say('\r\n+TWO: 2\r\nOK\r\n');
    expect(second.of).toEqual(['+TWO: 2']);
  });
});

test('one command at a time, in their order', async () => {
  const channel = b.open();
  const ends = ['AT+A', 'AT+B', 'AT+C'].map((command) => ending(channel.command(command)));
  await quiet();
  expect(b.written).toBe('AT+A\r');
  await b.say('a\r\nOK\r\n');
  expect(b.written).toBe('AT+A\rAT+B\r');
  await b.say('b\r\nOK\r\n', 'c\r\nOK\r\n');
  expect(ends.map((end) => end.of)).toEqual([['a'], ['b'], ['c']]);
});

test('an OK without the expected line belongs to an earlier command', async () => {
  const end = ending(b.open().command('AT+CSQ', { expect: '+CSQ:' }));
  await b.say('OK\r\n');
  expect(end.of).toBeUndefined();
  await b.say('+CSQ: 1,99\r\nOK\r\n');
  expect(end.of).toEqual(['+CSQ: 1,99']);
});

describe('a message', () => {
  const asking = { expect: '+CMGS:', message: '0011AA' };

  test('is written after the prompt, ended with Ctrl-Z', async () => {
    const end = ending(b.open().command('AT+CMGS=2', asking));
    await quiet();
    expect(b.written).toBe('AT+CMGS=2\r');
    await b.say('\r\n> ');
    expect(b.written).toBe('AT+CMGS=2\r0011AA\x1a');
    await b.say('0011AA\x1a\r\n+CMGS: 7\r\n\r\nOK\r\n');
    expect(end.of).toEqual(['+CMGS: 7']);
  });

  test.each(['\r\n>', '>', '\r\n\xff> ', 'AT+CMGS=2\r\r\n> '])('after the prompt %j', async (prompt) => {
    void b.open().command('AT+CMGS=2', asking);
    await b.say(prompt);
    expect(b.written).toBe('AT+CMGS=2\r0011AA\x1a');
  });

  test('is not written after something else with that sign', async () => {
    void b.open().command('AT+CMGS=2', asking);
    await b.say('\r\n+X: a>b\r\n', '\r\nOK\r\n');
    expect(b.written).toBe('AT+CMGS=2\r');
  });

  test('an OK alone does not make it accepted', async () => {
    const end = ending(b.open().command('AT+CMGS=2', asking));
    await b.say('> ', '\r\nOK\r\n');
    expect(end.of).toBeUndefined();
    await b.timer.advance(AT_LIMITS.accept_ms);
    expect(end.of).toMatchObject({ failure: 'silent' });
  });

  test('its number makes it accepted, though the OK or the port is lost', async () => {
    const first = ending(b.open().command('AT+CMGS=2', asking));
    await b.say('> ', '+CMGS: 7\r\n');
    await b.timer.advance(AT_LIMITS.accept_ms);
    expect(first.of).toEqual(['+CMGS: 7']);
  });

  test('that was written when the port goes is not accepted', async () => {
    const end = ending(b.open().command('AT+CMGS=2', asking));
    await b.say('> ');
    b.port.destroy();
    await quiet();
    expect(end.of).toMatchObject({ failure: 'closed' });
  });

  test('without a prompt is taken back with ESC', async () => {
    const end = ending(b.open().command('AT+CMGS=2', asking));
    await quiet();
    await b.timer.advance(AT_LIMITS.prompt_ms);
    expect(end.of).toMatchObject({ failure: 'silent' });
    expect(b.written).toBe('AT+CMGS=2\r\x1b');
  });

  test('refused in place of the prompt is refused', async () => {
    const end = ending(b.open().command('AT+CMGS=2', asking));
    await b.say('+CMS ERROR: 304\r\n');
    expect(end.of).toMatchObject({ cms: 304 });
  });

  test('the echo of its digits is neither an answer nor a data unit told of', async () => {
    const end = ending(b.open().command('AT+CMGS=2', asking));
    await b.say('> ', '0011AA\r\n', '+CMGS: 7\r\nOK\r\n');
    expect(end.of).toEqual(['+CMGS: 7']);
    expect(b.events).toEqual([]);
  });
});

describe('limits', () => {
  test('silence ends a command, and the next one is given', async () => {
    const channel = b.open();
    const first = ending(channel.command('AT+CPIN="1234"'));
    const second = ending(channel.command('AT', { answer_ms: 50 }));
    await quiet();
    await b.timer.advance(AT_LIMITS.answer_ms);
    expect(first.of).toMatchObject({
      failure: 'silent',
      message: 'modem: expected an answer to AT+CPIN within 10000 ms, got none',
    });
    expect(b.written).toBe('AT+CPIN="1234"\rAT\r');
    await b.timer.advance(50);
    expect(second.of).toMatchObject({ failure: 'silent' });
    expect(b.timer.waits_ms).toEqual([]);
  });

  test('an endless line is dropped, the next one is read', async () => {
    const end = ending(b.open().command('AT+CSQ'));
    await b.say('x'.repeat(5 * LINE_LENGTH), `${'y'.repeat(LINE_LENGTH)}OK\r\n`);
    expect(end.of).toBeUndefined();
    await b.say('+CSQ: 1,99\r\nOK\r\n');
    expect(end.of).toEqual(['+CSQ: 1,99']);
  });

  test('an endless answer is cut', async () => {
    const end = ending(b.open({ answer_lines: 3 }).command('AT+CMGL=4'));
    await b.say('a\r\n'.repeat(100), 'OK\r\n');
    expect(end.of).toEqual(['a', 'a', 'a']);
  });

  test('more commands than may wait are refused at once', async () => {
    const channel = b.open({ queue: 2 });
    const ends = [1, 2, 3].map(() => ending(channel.command('AT')));
    await quiet();
    expect(ends.map((end) => end.of)).toEqual([
      undefined,
      undefined,
      expect.objectContaining({ failure: 'busy' }),
    ]);
  });
});

describe('waking', () => {
  test('ESC and AT until it answers', async () => {
    const answer = b.open().wake();
    await quiet();
    await b.timer.advance(AT_LIMITS.wake_ms);
    await quiet();
    await b.say('ERROR\r\n', 'OK\r\n');
    expect(await answer).toBe(true);
    expect(b.written).toBe('\x1bAT\r'.repeat(3));
  });

  test('a modem that never answers is hung', async () => {
    const answer = b.open().wake();
    for (let count = 0; count < AT_LIMITS.wakes; count += 1) {
      await quiet();
      await b.timer.advance(AT_LIMITS.wake_ms);
    }
    expect(await answer).toBe(false);
  });
});

describe('the end of the port', () => {
  test.each([
    ['an end', () => b.port.push(null)],
    ['a destruction', () => b.port.destroy()],
    ['an error', () => b.port.destroy(new Error('gone'))],
  ])('%s fails what waits, and what comes later', async (_, end) => {
    const channel = b.open();
    const ends = ['AT+A', 'AT+B'].map((command) => ending(channel.command(command)));
    await quiet();
    end();
    await channel.closed;
    await quiet();
    ends.push(ending(channel.command('AT+C')));
    await quiet();
    for (const { of } of ends) expect(of).toMatchObject({ failure: 'closed', code: 'RECEIVER_UNAVAILABLE' });
    await expect(channel.wake()).rejects.toMatchObject({ failure: 'closed' });
    expect(b.timer.waits_ms).toEqual([]);
  });
});
