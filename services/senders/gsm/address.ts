/** Addresses in a protocol data unit: 3GPP TS 23.040 section 9.1.2.5. */
import { SandlarderError } from '../../core/errors.js';
import { fromSeptets } from './alphabet.js';
import { requireNumber } from './number.js';
import type { OctetReader } from './octets.js';
import { unpack } from './septet-packing.js';

/** Type of number 001, numbering plan 0001 (E.164), bit 7 always set. */
const INTERNATIONAL_ISDN = 0x91;

const INTERNATIONAL = 1;
const ALPHANUMERIC = 5;

/** Semi-octets of an address at the most: 12 octets, with 2 before the digits. */
const MOST_SEMI_OCTETS = 20;

/** Digits two to an octet, the first in the lower half; F fills the last: section 9.1.2.3. */
export function semiOctets(digits: string): number[] {
  const filled = digits.length % 2 === 0 ? digits : `${digits}F`;
  return (filled.match(/../g) ?? []).map((pair) => Number.parseInt(`${pair[1]}${pair[0]}`, 16));
}

/** @throws SandlarderError BAD_REQUEST for what is no international number */
export function encodeAddress(number: string): number[] {
  requireNumber(number);
  const digits = number.slice(1);
  return [digits.length, INTERNATIONAL_ISDN, ...semiOctets(digits)];
}

/** Characters of the semi-octets 0 to 14; 15 is the filler: table of section 9.1.2.3. */
const DIGITS = '0123456789*#abc';

function digitsOf(octets: Uint8Array, count: number): string {
  const halves = [...octets].flatMap((octet) => [octet & 0x0f, octet >> 4]);
  return halves
    .slice(0, count)
    .map((half) => DIGITS[half] ?? '')
    .join('');
}

/**
 * Reads an address: an international number with its plus sign, any other number as its digits, a name as it is.
 *
 * @throws SandlarderError BAD_MESSAGE for one that is too long or cut off
 */
export function decodeAddress(reader: OctetReader): string {
  const length = reader.octet();
  if (!(length <= MOST_SEMI_OCTETS))
    throw new SandlarderError(
      'BAD_MESSAGE',
      `address: expected at most ${MOST_SEMI_OCTETS} semi-octets, got ${length}`,
    );
  const type = (reader.octet() >> 4) & 7;
  const octets = reader.octets(Math.ceil(length / 2));
  if (type === ALPHANUMERIC) return fromSeptets(unpack(octets, Math.floor((length * 4) / 7)));
  return (type === INTERNATIONAL ? '+' : '') + digitsOf(octets, length);
}
