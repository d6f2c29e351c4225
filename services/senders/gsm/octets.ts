/** Octets as a modem writes them: two hexadecimal digits each. */
import { SandlarderError } from '../../core/errors.js';

export function toHex(octets: Iterable<number>): string {
  return Array.from(octets, (octet) => octet.toString(16).padStart(2, '0'))
    .join('')
    .toUpperCase();
}

/** @throws SandlarderError BAD_MESSAGE for anything but pairs of hexadecimal digits */
export function fromHex(hex: string): Uint8Array {
  if (!/^(?:[0-9a-f]{2})*$/i.test(hex))
    throw new SandlarderError('BAD_MESSAGE', 'expected pairs of hexadecimal digits, got something else');
  return Uint8Array.from(hex.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
}

/** UTF-16, the high octet first. */
export function toUcs2(text: string): number[] {
  return [...Array(text.length).keys()].flatMap((at) => {
    const unit = text.charCodeAt(at);
    return [unit >> 8, unit & 0xff];
  });
}

/** A lone last octet is no character and is left out. */
export function fromUcs2(octets: Uint8Array): string {
  let text = '';
  for (let at = 0; at + 1 < octets.length; at += 2)
    text += String.fromCharCode(((octets[at] ?? 0) << 8) | (octets[at + 1] ?? 0));
  return text;
}

/** Takes octets off the front. Whatever is too short throws BAD_MESSAGE: nothing is read past the end. */
export class OctetReader {
  readonly #octets: Uint8Array;
  #at = 0;

  constructor(octets: Uint8Array) {
    this.#octets = octets;
  }

  octet(): number {
    return this.octets(1)[0] ?? 0;
  }

  octets(count: number): Uint8Array {
    const left = this.#octets.length - this.#at;
    if (!(count <= left))
      throw new SandlarderError('BAD_MESSAGE', `short message: expected ${count} more octets, got ${left}`);
    this.#at += count;
    return this.#octets.subarray(this.#at - count, this.#at);
  }
}
