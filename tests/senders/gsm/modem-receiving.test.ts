import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { AT, KEEPER, ModemBench, message } from './a-modem.js';
import { passUntil, quiet, until } from './memory-line.js';
import { concatenated, deliver, statusReport } from './network-side.js';

let b: ModemBench;
beforeEach(() => {
  b = new ModemBench();
});
afterEach(() => b.close());

describe('receiving', () => {
  test('what was stored before, and what is told of', async () => {
    b.device.store(message('first'));
    await b.registered();
    expect(b.received).toEqual([{ from: KEEPER, text: 'first', sentAt: AT, complete: true }]);
    const index = b.device.store(message('second'));
    b.device.say(`+CMTI: "SM",${index}`);
    await until('the second', () => b.received.length === 2);
    await until('an empty storage', () => b.device.storage['SM']?.size === 0);
  });

  test('is removed only when the receiver has it', async () => {
    let release = (): void => undefined;
    b.takes = () =>
      new Promise((resolve) => {
        release = resolve;
      });
    b.device.store(message('12'));
    b.begin();
    await until('the message', () => b.received.length === 1);
    await quiet();
    expect(b.device.storage['SM']?.size).toBe(1);
    release();
    await until('an empty storage', () => b.device.storage['SM']?.size === 0);
  });

  test('stays where the receiver cannot take it, and is given again', async () => {
    b.takes = () => Promise.reject(new Error('disk full'));
    b.device.store(message('12'));
    await b.registered();
    expect(b.log).toEqual([{ type: 'modem-message-kept', error: 'disk full' }]);
    expect(b.device.storage['SM']?.size).toBe(1);
    b.takes = async () => undefined;
    await passUntil(b.timer, 'an empty storage', () => b.device.storage['SM']?.size === 0);
    expect(b.received.map(({ text }) => text).every((text) => text === '12')).toBe(true);
  });

  test('a receiver that hangs does not hold up the modem', async () => {
    b.takes = () => new Promise(() => undefined);
    b.device.store(message('12'));
    b.begin();
    await passUntil(b.timer, 'the end of patience', () => b.log.length > 0);
    expect(b.log[0]).toMatchObject({ type: 'modem-message-kept' });
    expect(b.device.storage['SM']?.size).toBe(1);
  });

  test('parts in any order, over a port that is torn out between them', async () => {
    await b.registered();
    const part = (number: number, text: string) => message(text, concatenated(9, 3, number));
    b.device.say(`+CMTI: "SM",${b.device.store(part(3, 'c'))}`);
    b.device.say(`+CMTI: "SM",${b.device.store(part(1, 'a'))}`);
    await quiet();
    b.ports.at(-1)?.();
    await until('the loss', () => b.modem.status.state === 'lost');
    b.device.store(part(2, 'b'));
    await b.inState('registered');
    await until('an empty storage', () => b.device.storage['SM']?.size === 0);
    expect(b.received).toMatchObject([{ text: 'abc', complete: true }]);
  });

  test('another card in the modem loses no message of its own', async () => {
    await b.registered();
    b.device.say(`+CMTI: "SM",${b.device.store(message('a', concatenated(9, 2, 1)))}`);
    await quiet();
    b.ports.at(-1)?.();
    await until('the loss', () => b.modem.status.state === 'lost');
    b.device.storage['SM']?.clear();
    b.device.store(message('x', concatenated(7, 2, 1)));
    await b.inState('registered');
    b.device.say(`+CMTI: "SM",${b.device.store(message('b', concatenated(9, 2, 2)))}`);
    await quiet();
    expect(b.received).toEqual([]);
    expect(b.device.storage['SM']?.size).toBe(2);
  });

  test('torn out while a long message is being removed, it is not given twice', async () => {
    for (const number of [1, 2, 3]) b.device.store(message(`${number}`, concatenated(9, 3, number)));
    b.device.override = (command) => {
      if (b.ports.length > 1 || !command.startsWith('AT+CMGD')) return undefined;
      b.ports.at(-1)?.();
      return [];
    };
    b.begin();
    await until('the loss', () => b.modem.status.state === 'lost');
    await b.inState('registered');
    await until('an empty storage', () => b.device.storage['SM']?.size === 0);
    await b.timer.advance(20 * 60_000);
    await quiet();
    expect(b.received).toMatchObject([{ text: '123', complete: true }]);
  });

  test('a storage that does not forget gives nothing twice', async () => {
    b.device.keepsDeleted = true;
    b.device.store(message('12'));
    await b.registered();
    for (let sweep = 0; sweep < 3; sweep += 1) await b.timer.advance(6 * 60_000);
    await quiet();
    expect(b.received).toHaveLength(1);
    b.device.keepsDeleted = false;
    await passUntil(b.timer, 'an empty storage', () => b.device.storage['SM']?.size === 0, 60_000);
    expect(b.received).toHaveLength(1);
  });

  test('what cannot be read is told of and removed, so that the storage does not fill', async () => {
    b.device.store('0004FF');
    b.device.store(deliver({ from: KEEPER, text: 'abc', at: AT, coding: 'octets' }));
    await b.registered();
    await until('an empty storage', () => b.device.storage['SM']?.size === 0);
    expect(b.log).toMatchObject([
      { type: 'modem-unreadable', pdu: '0004FF' },
      { type: 'modem-unreadable', error: 'expected text, got octets' },
    ]);
    expect(b.received).toEqual([]);
  });

  test('messages that somebody has stored to send are left alone', async () => {
    b.device.storage['SM']?.set(1, { stat: 2, pdu: '0011000B916407281553F80000AA0AE8329BFD4697D9EC37' });
    await b.registered();
    expect(b.device.storage['SM']?.size).toBe(1);
    expect(b.log).toEqual([]);
  });

  test('a stored report is read from its own storage', async () => {
    await b.registered();
    const index = b.device.store(statusReport({ reference: 5, to: KEEPER, at: AT, status: 0x46 }), 'SR');
    b.device.store(message('12'));
    b.device.say(`+CDSI: "SR",${index}`);
    await until('the report', () => b.reports.length === 1);
    await until('an empty storage', () => b.device.storage['SR']?.size === 0);
    expect(b.reports).toMatchObject([{ reference: 5, outcome: 'failed' }]);
    expect(b.device.storage['SM']?.size).toBe(1);
  });

  test('a storage that cannot be had is not mistaken for another', async () => {
    b.device.store(message('12'));
    b.takes = () => Promise.reject(new Error('not yet'));
    await b.registered();
    b.device.say('+CMTI: "XX",1');
    await quiet();
    expect(b.device.commands).toContain('AT+CPMS="XX"');
    expect(b.device.commands).not.toContain('AT+CMGR=1');
  });
});

test('a receiver of reports that throws is no trouble of the modem', async () => {
  await b.registered({
    onReport: () => {
      throw new Error('bug');
    },
  });
  b.device.say('+CDS: 26', statusReport({ reference: 1, to: KEEPER, at: AT, status: 0 }));
  await until('trouble', () => b.log.length > 0);
  await quiet();
  expect(b.log).toEqual([{ type: 'modem-trouble', error: 'bug' }]);
  expect(b.ports).toHaveLength(1);
});

describe('messages that come direct', () => {
  const direct = async (): Promise<void> => {
    b.device.indications = (set) => set === '2,2,0,1';
    await b.registered();
    b.device.commands.length = 0;
  };

  test('are acknowledged when the receiver has them', async () => {
    await direct();
    b.takes = async () => {
      expect(b.device.commands).not.toContain('AT+CNMA');
    };
    b.device.say('+CMT: ,24', message('12'));
    await until('the acknowledgement', () => b.device.commands.includes('AT+CNMA'));
    expect(b.received).toMatchObject([{ text: '12' }]);
  });

  test('are not where it cannot take them: the network brings them again', async () => {
    await direct();
    b.takes = () => Promise.reject(new Error('disk full'));
    b.device.say('+CMT: ,24', message('12'));
    await until('the message', () => b.log.length === 1);
    await quiet();
    expect(b.device.commands).not.toContain('AT+CNMA');
  });

  test('are put together from parts, each acknowledged', async () => {
    await direct();
    b.device.say('+CMT: ,24', message('b', concatenated(1, 2, 2)));
    await until('an acknowledgement', () => b.device.commands.includes('AT+CNMA'));
    b.device.say('+CMT: ,24', message('a', concatenated(1, 2, 1)));
    await until('the message', () => b.received.length === 1);
    expect(b.received).toMatchObject([{ text: 'ab' }]);
  });

  test('a modem that acknowledges by itself: kept here until the receiver has them', async () => {
    b.device.override = (command) => (command === 'AT+CSMS=1' ? ['ERROR'] : undefined);
    await direct();
    b.takes = () => Promise.reject(new Error('disk full'));
    b.device.say('+CMT: ,24', message('12'));
    await until('the message', () => b.log.length === 1);
    b.takes = async () => undefined;
    const before = b.received.length;
    await passUntil(b.timer, 'the message again', () => b.received.length > before);
    await b.timer.advance(120_000);
    expect(b.received.length).toBe(before + 1);
  });
});
