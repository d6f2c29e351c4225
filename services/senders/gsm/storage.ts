/** The modem's storage of messages: AT+CPMS, AT+CMGL, AT+CMGR and AT+CMGD of 3GPP TS 27.005. */
import type { AtChannel } from './at-channel.js';
import type { MessageForm } from './message-mode.js';
import { fromHex, fromUcs2 } from './octets.js';
import type { Deliver } from './pdu-deliver.js';
import { tolerant } from './registration.js';
import { isPdu } from './unsolicited.js';

export interface Place {
  /** Such as SM, the card, or ME, the modem itself. */
  readonly memory: string;
  readonly index: number;
}

export interface Stored {
  readonly place: Place;
  /** A data unit as digits, or what text mode has read of it. */
  readonly content: string | Deliver;
}

/** <stat> below 2 is received; 2 and 3 are messages that somebody has stored to send. */
const RECEIVED = 2;

export class Storage {
  readonly #channel: AtChannel;
  readonly #form: MessageForm;
  #selected = '';

  constructor(channel: AtChannel, form: MessageForm) {
    this.#channel = channel;
    this.#form = form;
  }

  /** All received messages in the storage into which new ones go. */
  async list(): Promise<Stored[]> {
    if (this.#form === 'text-gsm') return [];
    const memory = await this.#receiving();
    if (!(await this.#select(memory))) return [];
    const which = this.#form === 'pdu' ? '4' : '"ALL"';
    const lines = (await tolerant(this.#channel, `AT+CMGL=${which}`)) ?? [];
    return this.#parse(lines, /^\+CMGL: ?([0-9]+) ?, ?(.*)$/, memory);
  }

  /** One message, or none where that place is empty. */
  async read(place: Place): Promise<Stored[]> {
    if (this.#form === 'text-gsm') return [];
    if (!(await this.#select(place.memory))) return [];
    const lines = (await tolerant(this.#channel, `AT+CMGR=${place.index}`)) ?? [];
    return this.#parse(lines, /^\+CMGR: ?()(.*)$/, place.memory, place.index);
  }

  /** False where the modem refuses. */
  async delete(place: Place): Promise<boolean> {
    if (!(await this.#select(place.memory))) return false;
    return (await tolerant(this.#channel, `AT+CMGD=${place.index}`)) !== undefined;
  }

  /** <mem3> of +CPMS: "SM",1,30,"SM",1,30,"SM",1,30. */
  async #receiving(): Promise<string> {
    const lines = (await tolerant(this.#channel, 'AT+CPMS?', '+CPMS:')) ?? [];
    const memories = lines.join('').match(/"[A-Z]{2}"/g) ?? [];
    return (memories[2] ?? memories[0] ?? '').replaceAll('"', '');
  }

  /** False where the memory cannot be had: an index would then mean another message. */
  async #select(memory: string): Promise<boolean> {
    if (memory === this.#selected || memory === '') return true;
    if (!(await tolerant(this.#channel, `AT+CPMS="${memory}"`))) return false;
    this.#selected = memory;
    return true;
  }

  #parse(lines: readonly string[], heading: RegExp, memory: string, only?: number): Stored[] {
    const found: Stored[] = [];
    for (const [at, line] of lines.entries()) {
      const match = heading.exec(line);
      if (!match) continue;
      // A modem may say something of its own between a heading and its digits.
      const after = lines.slice(at + 1);
      const next = after.findIndex((later) => heading.test(later));
      const digits = after.slice(0, next < 0 ? undefined : next).find(isPdu);
      const content = this.#contentOf(match[2] ?? '', digits);
      if (content !== undefined) found.push({ place: { memory, index: only ?? Number(match[1]) }, content });
    }
    return found;
  }

  #contentOf(heading: string, digits: string | undefined): string | Deliver | undefined {
    if (this.#form === 'pdu') return Number.parseInt(heading, 10) < RECEIVED ? digits : undefined;
    const [, from] = /^"REC (?:UN)?READ" ?, ?"([0-9A-F]*)"/i.exec(heading) ?? [];
    if (from === undefined) return undefined;
    return { type: 'deliver', from: ucs2(from), sentAt: undefined, text: ucs2(digits ?? '') };
  }
}

const ucs2 = (digits: string): string =>
  isPdu(digits) && digits.length % 4 === 0 ? fromUcs2(fromHex(digits)) : digits;
