/** What a short message carries: header, alphabet, text. 3GPP TS 23.040 section 9.2.3.24, TS 23.038 section 4. */
import { SandlarderError } from '../../core/errors.js';
import { fromSeptets, toSeptets } from './alphabet.js';
import { fromUcs2, OctetReader, toUcs2 } from './octets.js';
import type { Concatenation, Part } from './segments.js';
import { pack, unpack } from './septet-packing.js';

/** Information element identifiers: section 9.2.3.24. */
const CONCATENATED_8_BIT = 0x00;
const CONCATENATED_16_BIT = 0x08;

/** TP-User-Data-Length and TP-User-Data. The length counts septets in GSM 7-bit, octets otherwise. */
export function encodeUserData(part: Part): number[] {
  const header = headerOf(part.concatenation);
  if (part.coding === 'ucs-2') {
    const octets = [...header, ...toUcs2(part.text)];
    return [octets.length, ...octets];
  }
  const septets = toSeptets(part.text);
  if (!septets)
    throw new SandlarderError('OUT_OF_DOMAIN', 'expected characters of the GSM 7-bit alphabet, got another');
  const headerSeptets = Math.ceil((header.length * 8) / 7);
  const fillBits = headerSeptets * 7 - header.length * 8;
  return [headerSeptets + septets.length, ...header, ...pack(septets, fillBits)];
}

function headerOf(concatenation: Concatenation | undefined): number[] {
  if (!concatenation) return [];
  const { reference, total, number } = concatenation;
  return [5, CONCATENATED_8_BIT, 3, reference, total, number];
}

/** The alphabet that a data coding scheme names; reserved ones count as GSM 7-bit, as section 4 asks. */
export function alphabetOf(scheme: number): 'gsm-7' | 'ucs-2' | 'octets' {
  const group = scheme >> 4;
  if (group === 0xf) return (scheme & 0x04) === 0 ? 'gsm-7' : 'octets';
  if (group === 0xe) return 'ucs-2';
  if (group >= 8) return 'gsm-7';
  // Compressed text (bit 5) is left as octets: no network is known to carry it (common practice, no source).
  if ((scheme & 0x20) !== 0) return 'octets';
  const alphabets = ['gsm-7', 'octets', 'ucs-2', 'gsm-7'] as const;
  return alphabets[(scheme >> 2) & 3] ?? 'gsm-7';
}

export interface UserData {
  /** Undefined where it is octets, not text. */
  readonly text: string | undefined;
  readonly concatenation?: Concatenation;
}

/**
 * Reads TP-User-Data-Length and TP-User-Data.
 *
 * @throws SandlarderError BAD_MESSAGE for one that is cut off or whose header is longer than the whole
 */
export function decodeUserData(reader: OctetReader, scheme: number, withHeader: boolean): UserData {
  const alphabet = alphabetOf(scheme);
  const length = reader.octet();
  const bytes = alphabet === 'gsm-7' ? Math.ceil((length * 7) / 8) : length;
  if (!(bytes <= 140))
    throw new SandlarderError('BAD_MESSAGE', `user data: expected at most 140 octets, got ${bytes}`);
  const octets = reader.octets(bytes);
  const headerBytes = withHeader ? (octets[0] ?? 0) + 1 : 0;
  if (!(headerBytes <= bytes))
    throw new SandlarderError('BAD_MESSAGE', `user data: expected a header within ${bytes} octets, got more`);
  const concatenation = withHeader ? concatenationOf(octets.subarray(1, headerBytes)) : undefined;
  const body = octets.subarray(headerBytes);
  return { text: textOf(alphabet, body, length, headerBytes), ...(concatenation && { concatenation }) };
}

function textOf(
  alphabet: ReturnType<typeof alphabetOf>,
  body: Uint8Array,
  length: number,
  headerBytes: number,
): string | undefined {
  if (alphabet === 'octets') return undefined;
  if (alphabet === 'ucs-2') return fromUcs2(body);
  const headerSeptets = Math.ceil((headerBytes * 8) / 7);
  return fromSeptets(unpack(body, length - headerSeptets, headerSeptets * 7 - headerBytes * 8));
}

/** The last concatenation element that makes sense: one that does not is to be ignored, section 9.2.3.24.1. */
function concatenationOf(header: Uint8Array): Concatenation | undefined {
  let found: Concatenation | undefined;
  const reader = new OctetReader(header);
  for (let left = header.length; left >= 2; ) {
    const identifier = reader.octet();
    const length = reader.octet();
    if (length > left - 2) break;
    const element = reader.octets(length);
    left -= 2 + length;
    found = elementOf(identifier, element) ?? found;
  }
  return found;
}

function elementOf(identifier: number, element: Uint8Array): Concatenation | undefined {
  const [first = 0, second = 0, third = 0, fourth = 0] = element;
  const eight = identifier === CONCATENATED_8_BIT && element.length === 3;
  if (!eight && !(identifier === CONCATENATED_16_BIT && element.length === 4)) return undefined;
  const [reference, total, number] = eight ? [first, second, third] : [(first << 8) | second, third, fourth];
  return number >= 1 && number <= total ? { reference, total, number } : undefined;
}
