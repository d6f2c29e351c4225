import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { signalOf } from '../../../services/senders/gsm/registration.js';
import { AT, KEEPER, ModemBench, message, PART } from './a-modem.js';
import { passUntil, portTo, until } from './memory-line.js';

let b: ModemBench;
beforeEach(() => {
  b = new ModemBench();
});
afterEach(() => b.close());

describe('setting up', () => {
  test('echo off, errors with numbers, card, data units, indications, network, signal', async () => {
    await b.registered();
    expect(b.names()).toEqual(['registered']);
    expect(b.modem.status).toEqual({ state: 'registered', signal_dBm: -73 });
    const order = [
      'AT',
      'ATE0',
      'AT+CMEE=1',
      'AT+CPIN?',
      'AT+CMGF=0',
      'AT+CNMI=2,1,0,1',
      'AT+CREG?',
      'AT+CSQ',
    ];
    expect(b.device.commands.filter((command) => order.includes(command))).toEqual(order);
  });

  test('a modem that echoes and refuses all that it may refuse', async () => {
    b.device.echo = true;
    const needed = /^AT(?:\+CPIN\?|\+CREG\?|\+CMGF=0|\+CMG[LRDS].*)?$/;
    b.device.override = (command) => (needed.test(command) ? undefined : ['+CME ERROR: 4']);
    await b.registered();
    expect(b.modem.status).toEqual({ state: 'registered' });
    b.device.store(message('12'));
    await passUntil(b.timer, 'the message', () => b.received.length > 0, 60_000);
    expect(b.received).toMatchObject([{ text: '12' }]);
  });

  test('the best indication that it knows is taken', async () => {
    b.device.indications = (set) => set === '1,1,0,2';
    await b.registered();
    expect(b.device.commands.filter((command) => command.startsWith('AT+CNMI')).at(-1)).toBe(
      'AT+CNMI=1,1,0,2',
    );
  });

  test('a modem that is not ready for messages yet is asked again', async () => {
    let asked = 0;
    b.device.override = (command) => {
      if (!command.startsWith('AT+CMGF')) return undefined;
      asked += 1;
      return asked <= 4 ? ['+CMS ERROR: 314'] : undefined;
    };
    await b.registered();
    expect(b.states[0]).toEqual({ state: 'starting', note: 'The modem is not yet ready for messages.' });
  });
});

// 3GPP TS 27.007 section 8.5.
test.each([
  [0, -113],
  [1, -111],
  [2, -109],
  [30, -53],
  [31, -51],
  [32, undefined],
  [99, undefined],
  [-1, undefined],
  [Number.NaN, undefined],
])('a signal of %d is %s dBm', (rssi, signal_dBm) => {
  expect(signalOf(rssi)).toBe(signal_dBm);
});

describe('the card', () => {
  test('none, then one', async () => {
    b.device.sim = undefined;
    b.begin();
    await b.inState('no-sim');
    await expect(b.modem.send(KEEPER, PART)).rejects.toThrow('expected to be registered, got no-sim: No SIM');
    b.device.sim = 'READY';
    await b.inState('registered');
    expect(b.names()).toEqual(['no-sim', 'registered']);
  });

  test('torn out and put back, all is set up anew', async () => {
    await b.registered();
    b.device.sim = undefined;
    b.device.say('+CPIN: NOT READY');
    await until('no card', () => b.modem.status.state === 'no-sim');
    b.device.commands.length = 0;
    b.device.sim = 'READY';
    b.device.say('+CPIN: READY');
    await until('a network', () => b.modem.status.state === 'registered');
    expect(b.device.commands).toContain('AT+CNMI=2,1,0,1');
  });

  test('a modem that has restarted by itself is set up anew', async () => {
    await b.registered();
    b.device.commands.length = 0;
    b.device.say('+CPIN: READY');
    await until('the set-up', () => b.device.commands.includes('AT+CNMI=2,1,0,1'));
    await until('a network', () => b.modem.status.state === 'registered');
    expect(b.ports).toHaveLength(1);
  });

  test('its PIN is given', async () => {
    b.device.sim = 'SIM PIN';
    await b.registered({ pin: '1234' });
    expect(b.names()).toEqual(['starting', 'registered']);
  });

  test('asks for a PIN that is not set', async () => {
    b.device.sim = 'SIM PIN';
    b.begin();
    await b.inState('pin-needed');
    expect(b.modem.status.note).toBe('The SIM asks for its PIN, and none is set.');
    b.device.sim = 'READY';
    await b.inState('registered');
  });

  test('a wrong PIN is given once, however long it waits and however often the port is opened', async () => {
    b.device.sim = 'SIM PIN';
    b.begin({ pin: '9999' });
    await b.inState('pin-needed');
    for (let hour = 0; hour < 3; hour += 1) await b.timer.advance(60_000);
    b.ports.at(-1)?.();
    await passUntil(b.timer, 'another port', () => b.ports.length === 2);
    await b.inState('pin-needed');
    expect(b.device.pinTries).toBe(2);
    expect(b.device.commands.filter((command) => command.startsWith('AT+CPIN='))).toHaveLength(1);
    expect(JSON.stringify([b.states, b.log])).not.toContain('9999');
  });

  test('the last try is left to a person', async () => {
    b.device.sim = 'SIM PIN';
    b.device.pinTries = 1;
    b.begin({ pin: '1234' });
    await b.inState('pin-needed');
    expect(b.modem.status.note).toContain('one try left');
    expect(b.device.pinTries).toBe(1);
    expect(b.device.sim).toBe('SIM PIN');
  });

  test('a modem that tells of the PIN by an error', async () => {
    b.device.override = (command) =>
      command === 'AT+CPIN?' && b.device.sim === 'SIM PIN' ? ['+CME ERROR: 11'] : undefined;
    b.device.sim = 'SIM PIN';
    await b.registered({ pin: '1234' });
    expect(b.device.sim).toBe('READY');
  });

  test.each([
    ['+CME ERROR: 12', 'pin-needed'],
    ['+CME ERROR: 13', 'no-sim'],
    ['ERROR', 'no-sim'],
  ] as const)('%s is %s', async (result, state) => {
    b.device.override = (command) => (command === 'AT+CPIN?' ? [result] : undefined);
    b.begin({ pin: '1234' });
    await b.inState(state);
    expect(b.device.commands.filter((command) => command.startsWith('AT+CPIN='))).toEqual([]);
  });
});

describe('the network', () => {
  test('searched, found, lost and found', async () => {
    b.device.registration = 2;
    b.begin();
    await b.inState('searching');
    expect(b.modem.status.note).toBe('No network found.');
    b.device.registration = 5;
    b.device.say('+CREG: 5');
    await until('a network', () => b.modem.status.state === 'registered');
    b.device.registration = 0;
    b.device.say('+CREG: 0');
    await until('none', () => b.modem.status.state === 'searching');
    await expect(b.modem.send(KEEPER, PART)).rejects.toThrow('got searching');
    b.device.registration = 1;
    await b.inState('registered');
  });

  test('one that refuses the card is told apart', async () => {
    b.device.registration = 3;
    b.begin();
    await b.inState('searching');
    expect(b.modem.status.note).toBe('The network refuses this SIM.');
  });

  test('LTE alone will do', async () => {
    b.device.registration = 0;
    b.device.override = (command) => (command === 'AT+CEREG?' ? ['+CEREG: 0,1', 'OK'] : undefined);
    await b.registered();
  });

  test('a change of the signal is told of', async () => {
    await b.registered();
    b.device.rssi = 99;
    await passUntil(b.timer, 'the change', () => b.states.length === 2);
    expect(b.states).toEqual([{ state: 'registered', signal_dBm: -73 }, { state: 'registered' }]);
  });
});

describe('a modem that hangs', () => {
  test('is woken where it can be', async () => {
    await b.registered();
    b.device.silent = true;
    await passUntil(b.timer, 'trouble', () => b.log.length > 0);
    b.device.silent = false;
    await b.inState('registered');
    expect(b.ports).toHaveLength(1);
    expect(b.log).toMatchObject([{ type: 'modem-trouble' }]);
  });

  test('is reset where it cannot, and the port opened again with longer and longer waits', async () => {
    await b.registered();
    b.device.silent = true;
    await passUntil(b.timer, 'the loss', () => b.modem.status.state === 'lost');
    expect(b.log).toContainEqual({ type: 'modem-reset' });
    expect(b.device.commands).toContain('AT+CFUN=1,1');
    b.device.silent = false;
    await b.inState('registered');
    expect(b.ports).toHaveLength(2);
  });

  test('is reset where it wakes but never answers one command', async () => {
    b.device.override = (command) => (command === 'AT+CSQ' ? [] : undefined);
    b.begin();
    await passUntil(b.timer, 'the reset', () => b.device.commands.includes('AT+CFUN=1,1'));
    expect(b.device.commands.filter((command) => command === 'AT+CSQ')).toHaveLength(3);
  });
});

describe('the port', () => {
  test('that is not there is tried again, ever more seldom, until it is', async () => {
    const tried: number[] = [];
    b.begin({
      open: async () => {
        tried.push(b.timer.now() - AT);
        if (tried.length < 6) throw new Error('no such file');
        return portTo(b.device);
      },
    });
    await b.inState('registered');
    // Doubled from 1 s, three quarters of it at random 0.5.
    expect(tried).toEqual([0, 750, 2250, 5250, 11_250, 23_250]);
    expect(b.names()).toEqual(['lost', 'starting', 'registered']);
    expect(b.states[0]?.note).toBe('no such file');
  });

  test('torn out again and again, it is opened again as soon each time', async () => {
    await b.registered();
    for (let time = 0; time < 4; time += 1) {
      b.ports.at(-1)?.();
      await until('the loss', () => b.modem.status.state === 'lost');
      await until('the wait', () => b.timer.waits_ms.length === 1);
      expect(b.timer.waits_ms).toEqual([750]);
      await b.inState('registered');
    }
  });

  test('given back, nothing waits and nothing is sent', async () => {
    await b.registered();
    await b.modem.close();
    expect(b.timer.waits_ms).toEqual([]);
    await expect(b.modem.send(KEEPER, PART)).rejects.toThrow('got lost: The port was given back.');
  });

  test('given back while it is being waited for', async () => {
    b.begin({ open: () => Promise.reject(new Error('none')) });
    await until('the loss', () => b.modem.status.state === 'lost');
    await b.modem.close();
    expect(b.timer.waits_ms).toEqual([]);
  });
});
