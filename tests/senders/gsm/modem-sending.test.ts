import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { AT, KEEPER, ModemBench, PART } from './a-modem.js';
import { passUntil, until } from './memory-line.js';
import { statusReport } from './network-side.js';

let b: ModemBench;
beforeEach(() => {
  b = new ModemBench();
});
afterEach(() => b.close());

describe('sending', () => {
  test('gives the reference under which a report will come', async () => {
    await b.registered();
    expect(await b.modem.send(KEEPER, PART)).toBe(1);
    expect(b.device.accepted).toMatchObject([{ to: KEEPER, text: PART.text, statusReport: true }]);
    b.device.say('+CDS: 26', statusReport({ reference: 1, to: KEEPER, at: AT, status: 0 }));
    await until('the report', () => b.reports.length > 0);
    expect(b.reports).toMatchObject([{ reference: 1, outcome: 'delivered', dischargedAt: AT }]);
  });

  test('a refusal is told with its number, and the next message goes', async () => {
    await b.registered();
    b.device.onMessage = () => ['+CMS ERROR: 38'];
    await expect(b.modem.send(KEEPER, PART)).rejects.toMatchObject({ cms: 38 });
    b.device.onMessage = () => undefined;
    expect(await b.modem.send(KEEPER, PART)).toBe(1);
  });

  test('a modem that restarts by itself does not take the length for a number', async () => {
    await b.registered();
    b.device.textMode = true;
    await b.modem.send(KEEPER, PART);
    expect(b.device.acceptedTexts).toEqual([]);
    expect(b.device.accepted).toHaveLength(1);
  });

  test('torn out in the middle: rejected, and the port is opened again', async () => {
    await b.registered();
    b.device.onMessage = () => {
      b.ports.at(-1)?.();
      return [];
    };
    await expect(b.modem.send(KEEPER, PART)).rejects.toMatchObject({ failure: 'closed' });
    await until('the loss', () => b.modem.status.state === 'lost');
    b.device.onMessage = () => undefined;
    await b.inState('registered');
    expect(b.ports).toHaveLength(2);
    expect(await b.modem.send(KEEPER, PART)).toBe(1);
  });

  test('no answer from the network: rejected, the modem woken and set up anew', async () => {
    await b.registered();
    b.device.onMessage = () => [];
    b.device.commands.length = 0;
    const sending = b.modem.send(KEEPER, PART).catch((error: unknown) => error);
    await passUntil(b.timer, 'the end of patience', () => b.device.commands.includes('ATE0'), 10_000);
    expect(await sending).toMatchObject({ failure: 'silent' });
    await b.inState('registered');
    expect(b.ports).toHaveLength(1);
  });
});

describe('text mode', () => {
  test('where the modem knows no data units', async () => {
    b.device.takesPdu = false;
    await b.registered();
    await b.modem.send(KEEPER, { coding: 'gsm-7', text: 'Ö[€' });
    const ucs2 = (text: string) => Buffer.from(text, 'utf16le').swap16().toString('hex').toUpperCase();
    expect(b.device.acceptedTexts).toEqual([`${ucs2(KEEPER)}:${ucs2('Ö[€')}`]);
    expect(b.device.commands).toContain('AT+CSMP=17,167,0,0');
  });

  test('a message that is an OK is read as one', async () => {
    b.device.takesPdu = false;
    let deleted = false;
    b.device.override = (command) => {
      if (command === 'AT+CMGD=4') deleted = true;
      return command === 'AT+CMGL="ALL"' && !deleted
        ? ['+CMGL: 4,"REC UNREAD","002B00340036",,"26/05/24,15:00:07+00"', '004F004B', 'OK']
        : undefined;
    };
    await b.registered();
    expect(b.received).toEqual([{ from: '+46', text: 'OK', sentAt: undefined, complete: true }]);
    expect(deleted).toBe(true);
  });

  test('without UCS-2 plain characters go, and those that would end the text do not', async () => {
    b.device.takesPdu = false;
    b.device.takesUcs2 = false;
    await b.registered();
    await b.modem.send(KEEPER, { coding: 'gsm-7', text: 'Öl' });
    expect(b.device.acceptedTexts).toEqual([`${KEEPER}:\\l`]);
    expect(b.modem.status.note).toContain('messages that come are not read');
    for (const text of ['Ξ', '€', '\r'])
      await expect(b.modem.send(KEEPER, { coding: 'gsm-7', text })).rejects.toMatchObject({
        code: 'BAD_REQUEST',
      });
  });

  test('other characters cannot go', async () => {
    b.device.takesPdu = false;
    await b.registered();
    await expect(b.modem.send(KEEPER, { coding: 'ucs-2', text: '23°' })).rejects.toThrow(
      'expected a text of GSM characters, as it knows text mode only',
    );
  });
});
