/** Sets a modem up for messages: 3GPP TS 27.005 sections 3.1 to 3.4. */

import { ONE_MESSAGE_septets, septetsOf } from '../../core/alarms/septets.js';
import { SandlarderError } from '../../core/errors.js';
import { septetsOfCharacter } from './alphabet.js';
import type { AtChannel } from './at-channel.js';
import { toHex, toUcs2 } from './octets.js';
import { encodeSubmit, relativeValidity } from './pdu-submit.js';
import { tolerant } from './registration.js';
import type { Part } from './segments.js';

/**
 * How messages pass the line. In text mode as UCS-2 digits where the modem knows them: then no text can be taken for
 * a result. As plain GSM characters it can send, and what comes is left in the storage.
 */
export type MessageForm = 'pdu' | 'text-ucs2' | 'text-gsm';

export interface MessageMode {
  readonly form: MessageForm;
  /** Messages and reports that are not stored must be acknowledged with AT+CNMA. */
  readonly acknowledge: boolean;
}

/**
 * AT+CNMI, the best first: messages stored and told of, so that none is lost between modem and program; reports
 * direct, else stored, else none; messages direct where the modem stores none. Older modems know <mode> 2, some
 * newer ones only 1 (common practice, no source).
 */
const INDICATIONS: readonly string[] = ['2,1,0,1', '1,1,0,1', '2,1,0,2', '1,1,0,2', '2,1', '1,1', '2,2,0,1'];

/** In text mode no status reports are read. */
const INDICATIONS_TEXT: readonly string[] = ['2,1,0,0', '1,1,0,0', '2,1', '1,1'];

/** @throws AtError where the modem takes neither PDU mode nor text mode, as while its SIM is starting */
export async function setUpMessages(channel: AtChannel, validity_min: number): Promise<MessageMode> {
  const form = await chooseForm(channel, validity_min);
  const acknowledge = await chooseService(channel);
  const indication = await chooseIndications(channel, form === 'pdu' ? INDICATIONS : INDICATIONS_TEXT);
  if (acknowledge || !indication?.startsWith('2,2')) return { form, acknowledge };
  // Messages that come direct are to be acknowledged when they are safe, not by the modem.
  const changed = (await tolerant(channel, 'AT+CSMS=1')) !== undefined;
  if (changed) await tolerant(channel, `AT+CNMI=${indication}`);
  return { form, acknowledge: changed };
}

async function chooseForm(channel: AtChannel, validity_min: number): Promise<MessageForm> {
  if (await tolerant(channel, 'AT+CMGF=0')) return 'pdu';
  await channel.command('AT+CMGF=1');
  // First octet: SMS-SUBMIT with a relative validity period, no status report.
  await tolerant(channel, `AT+CSMP=17,${relativeValidity(validity_min)},0,0`);
  if (await tolerant(channel, 'AT+CSCS="UCS2"')) return 'text-ucs2';
  await tolerant(channel, 'AT+CSCS="GSM"');
  return 'text-gsm';
}

/** A modem that takes none of them is asked by and by what it has stored. */
async function chooseIndications(
  channel: AtChannel,
  indications: readonly string[],
): Promise<string | undefined> {
  for (const indication of indications)
    if (await tolerant(channel, `AT+CNMI=${indication}`)) return indication;
  return undefined;
}

/**
 * AT+CSMS: with service 1 the program acknowledges what comes direct, with 0 the modem does so itself.
 *
 * @returns whether the modem keeps to service 1
 */
async function chooseService(channel: AtChannel): Promise<boolean> {
  if (await tolerant(channel, 'AT+CSMS=0')) return false;
  const lines = (await tolerant(channel, 'AT+CSMS?', '+CSMS:')) ?? [];
  return lines.some((line) => /^\+CSMS: ?1\b/.test(line));
}

/** What AT+CMGS is given. */
export interface Sending {
  readonly select: 'AT+CMGF=0' | 'AT+CMGF=1';
  readonly command: string;
  readonly message: string;
}

/**
 * @throws SandlarderError BAD_REQUEST for a number that is none, and in text mode for a text that the modem cannot
 * carry
 */
export function sendingOf(form: MessageForm, to: string, part: Part, validity_min: number): Sending {
  if (form === 'pdu') {
    const { hex, length } = encodeSubmit({ to, part, statusReport: true, validity_min });
    return { select: 'AT+CMGF=0', command: `AT+CMGS=${length}`, message: hex };
  }
  requireForTextMode(form, part.text);
  const ucs2 = form === 'text-ucs2';
  const address = ucs2 ? toHex(toUcs2(to)) : to;
  const message = ucs2 ? toHex(toUcs2(part.text)) : gsmCharacters(part.text);
  return { select: 'AT+CMGF=1', command: `AT+CMGS="${address}"`, message };
}

/** Ctrl-Z, ESC and carriage return would end a text of plain GSM characters. */
const ENDS = ['\x1a', '\x1b', '\r'];

function requireForTextMode(form: MessageForm, text: string): void {
  const septets = septetsOf(text);
  const characters = gsmCharacters(text);
  const ends = form === 'text-gsm' && ENDS.some((end) => characters.includes(end));
  if (!(septets !== undefined && septets <= ONE_MESSAGE_septets && !ends))
    throw new SandlarderError(
      'BAD_REQUEST',
      'modem: expected a text of GSM characters, as it knows text mode only, got others',
    );
}

const gsmCharacters = (text: string): string =>
  [...text]
    .flatMap((character) => septetsOfCharacter(character) ?? [])
    .map((septet) => String.fromCharCode(septet))
    .join('');
