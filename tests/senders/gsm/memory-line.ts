/** A serial line in memory, and waiting for what comes over it. */
import { Duplex } from 'node:stream';
import { setImmediate } from 'node:timers/promises';
import type { OpenPort } from '../../../services/senders/gsm/port.js';
import type { ManualTimer } from '../manual-timer.js';
import type { ScriptedModem } from './scripted-modem.js';

/** The program's end of a line; the other end is joined to a modem. */
export function lineTo(modem: ScriptedModem): Duplex {
  const line = new Duplex({
    read: () => undefined,
    write: (chunk: Buffer, _encoding, done) => {
      done();
      modem.feed(chunk.toString('latin1'));
    },
  });
  modem.write = (text) => {
    if (!line.destroyed) line.push(Buffer.from(text, 'latin1'));
  };
  return line;
}

export function portTo(modem: ScriptedModem): OpenPort {
  const stream = lineTo(modem);
  return {
    stream,
    close: async () => {
      stream.destroy();
    },
  };
}

/** Turns of the event loop in which something must have come about: far more than any exchange here takes. */
const MOST_TURNS = 5000;

/** Waits, without any time passing on the timers, until something is so. */
export async function until(what: string, isSo: () => boolean): Promise<void> {
  for (let turn = 0; turn < MOST_TURNS; turn += 1) {
    if (isSo()) return;
    await setImmediate();
  }
  throw new Error(`expected ${what}, waited in vain`);
}

/** Lets exchanges in memory come to their end. */
export async function quiet(): Promise<void> {
  for (let turn = 0; turn < 200; turn += 1) await setImmediate();
}

/** Lets time pass in steps, each with all that follows from it, until something is so. */
export async function passUntil(
  timer: ManualTimer,
  what: string,
  isSo: () => boolean,
  step_ms = 1000,
): Promise<void> {
  for (let step = 0; step < 1000; step += 1) {
    await quiet();
    if (isSo()) return;
    await timer.advance(step_ms);
  }
  throw new Error(`expected ${what}, waited ${1000 * step_ms} ms in vain`);
}
