/**
 * The other half of 3GPP TS 23.040, for tests: reads what a modem submits and writes what it receives. Works on
 * strings of bits, so that it shares no arithmetic with the code that it checks.
 */

/** Codes of TS 23.038 section 6.2.1, written down here a second time. */
const TABLE = [
  '@£$¥èéùìòÇ\nØø\rÅå',
  'Δ_ΦΓΛΩΠΨΣΘΞ\x1bÆæßÉ',
  ' !"#¤%&\'()*+,-./',
  '0123456789:;<=>?',
  '¡ABCDEFGHIJKLMNO',
  'PQRSTUVWXYZÄÖÑÜ§',
  '¿abcdefghijklmno',
  'pqrstuvwxyzäöñüà',
].join('');
const EXTENDED: Readonly<Record<string, string>> = {
  '\n': '\f',
  Λ: '^',
  '(': '{',
  ')': '}',
  '/': '\\',
  '<': '[',
  '=': '~',
  '>': ']',
  '¡': '|',
  e: '€',
};

const hex = (octet: number): string => octet.toString(16).padStart(2, '0').toUpperCase();
const octetsOf = (digits: string): number[] =>
  (digits.match(/../g) ?? []).map((pair) => Number.parseInt(pair, 16));
const swapped = (digits: string): string => digits.replace(/(.)(.)/g, '$2$1');
const fill = (digits: string): string => (digits.length % 2 === 0 ? digits : `${digits}F`);

/** Septets of octets: all bits, the last octet's first, cut into sevens from the right. */
function septetsIn(octets: readonly number[], skipBits: number, count: number): string {
  const bits = [...octets]
    .reverse()
    .map((octet) => octet.toString(2).padStart(8, '0'))
    .join('');
  const from = (index: number): number => bits.length - skipBits - 7 * index;
  return Array.from(
    { length: count },
    (_, index) => TABLE[Number.parseInt(bits.slice(from(index) - 7, from(index)), 2)] ?? '?',
  ).join('');
}

function readable(characters: string): string {
  const [first = '', ...escaped] = characters.split('\x1b');
  return first + escaped.map((rest) => (EXTENDED[rest[0] ?? ''] ?? rest[0] ?? '') + rest.slice(1)).join('');
}

function septetBits(text: string, fillBits: number): string {
  const codes = [...text].flatMap((character) => {
    const extended = Object.entries(EXTENDED).find(([, shown]) => shown === character);
    return extended ? [0x1b, TABLE.indexOf(extended[0])] : [TABLE.indexOf(character)];
  });
  return codes.reduce((bits, code) => code.toString(2).padStart(7, '0') + bits, '0'.repeat(fillBits));
}

function septetOctets(text: string, fillBits: number): string {
  const bits = septetBits(text, fillBits);
  const whole = bits.padStart(Math.ceil(bits.length / 8) * 8, '0');
  return (whole.match(/.{8}/g) ?? [])
    .reverse()
    .map((octet) => hex(Number.parseInt(octet, 2)))
    .join('');
}

export interface Submitted {
  readonly to: string;
  readonly text: string;
  readonly statusReport: boolean;
  readonly validity: number;
  readonly scheme: number;
  /** Reference, total, number. */
  readonly concatenation: readonly number[] | undefined;
}

/** Reads an SMS-SUBMIT with a relative validity period, as AT+CMGS is given it. */
export function readSubmit(digits: string): Submitted {
  const octets = octetsOf(digits);
  const tpdu = octets.slice(1 + (octets[0] ?? 0));
  const [first = 0, , length = 0, type] = tpdu;
  if ((first & 0x1b) !== 0x11)
    throw new Error(`expected SMS-SUBMIT with a validity period, got ${hex(first)}`);
  const addressOctets = Math.ceil(length / 2);
  const number = swapped(
    tpdu
      .slice(4, 4 + addressOctets)
      .map(hex)
      .join(''),
  ).slice(0, length);
  const [, scheme = 0, validity = 0, userLength = 0, ...user] = tpdu.slice(4 + addressOctets);
  const header = (first & 0x40) === 0 ? 0 : (user[0] ?? 0) + 1;
  const headerSeptets = Math.ceil((header * 8) / 7);
  const text =
    scheme === 8
      ? Buffer.from(user.slice(header)).swap16().toString('utf16le')
      : readable(septetsIn(user, headerSeptets * 7, userLength - headerSeptets));
  return {
    to: (type === 0x91 ? '+' : '') + number,
    text,
    statusReport: (first & 0x20) !== 0,
    validity,
    scheme,
    concatenation: header > 0 ? user.slice(3, 6) : undefined,
  };
}

/** A name has letters, a number a plus sign or none. */
function address(of: string): string {
  if (/[A-Za-z]/.test(of)) {
    const octets = septetOctets(of, 0);
    const semiOctets = Math.ceil(([...of].length * 7) / 4);
    return `${hex(semiOctets)}D0${octets}`;
  }
  const number = of.replace('+', '');
  return hex(number.length) + (of.startsWith('+') ? '91' : '81') + swapped(fill(number));
}

/** @param zone_quarters east of Greenwich */
export function timeStamp(time: number, zone_quarters = 0): string {
  const local = new Date(time + zone_quarters * 900_000).toISOString().replace(/\D/g, '').slice(2, 14);
  const zone = String(Math.abs(zone_quarters)).padStart(2, '0');
  const tens = Number(zone[0]) + (zone_quarters < 0 ? 8 : 0);
  return swapped(local) + zone[1] + tens.toString(16).toUpperCase();
}

export interface ToDeliver {
  readonly from: string;
  readonly text: string;
  readonly at: number;
  readonly zone_quarters?: number;
  readonly coding?: 'gsm-7' | 'ucs-2' | 'octets';
  /** Information elements, hexadecimal, without the header's length. */
  readonly header?: string;
}

/** An SMS-DELIVER with a service centre before it. */
export function deliver({ from, text, at, zone_quarters = 0, coding = 'gsm-7', header }: ToDeliver): string {
  const whole = header === undefined ? '' : hex(header.length / 2) + header;
  const headerOctets = whole.length / 2;
  const headerSeptets = Math.ceil((headerOctets * 8) / 7);
  const body =
    coding === 'gsm-7'
      ? septetOctets(text, headerSeptets * 7 - headerOctets * 8)
      : coding === 'ucs-2'
        ? Buffer.from(text, 'utf16le').swap16().toString('hex').toUpperCase()
        : Buffer.from(text).toString('hex').toUpperCase();
  const septets = septetBits(text, 0).length / 7 + headerSeptets;
  const length = coding === 'gsm-7' ? septets : headerOctets + body.length / 2;
  const first = header === undefined ? '04' : '44';
  const scheme = { 'gsm-7': '00', 'ucs-2': '08', octets: '04' }[coding];
  return `07917283010010F5${first}${address(from)}00${scheme}${timeStamp(at, zone_quarters)}${hex(length)}${whole}${body}`;
}

export const concatenated = (reference: number, total: number, number: number): string =>
  `0003${hex(reference)}${hex(total)}${hex(number)}`;

export interface ToReport {
  readonly reference: number;
  readonly to: string;
  readonly at: number;
  readonly status: number;
}

/** An SMS-STATUS-REPORT with a service centre before it. */
export function statusReport({ reference, to, at, status }: ToReport): string {
  const stamps = timeStamp(at - 5000) + timeStamp(at);
  return `07917283010010F506${hex(reference)}${address(to)}${stamps}${hex(status)}`;
}
