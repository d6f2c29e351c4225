/** SMS-SUBMIT, from the modem to the service centre: 3GPP TS 23.040 section 9.2.2.2. */
import { requireInDomain } from '../../core/errors.js';
import { encodeAddress } from './address.js';
import { toHex } from './octets.js';
import type { Part } from './segments.js';
import { encodeUserData } from './user-data.js';

export interface Submit {
  /** International number, with its plus sign. */
  readonly to: string;
  readonly part: Part;
  /** Ask the centre to say when it was delivered. */
  readonly statusReport: boolean;
  /** How long the centre tries, minutes, 5 to 635,040 (63 weeks); the next longer that can be told is taken. */
  readonly validity_min: number;
  /** TP-Message-Reference, 0 to 255; a modem puts its own in the place of 0. */
  readonly reference?: number;
}

export interface Pdu {
  /** With the octet 00 before it: the service centre that the SIM knows. */
  readonly hex: string;
  /** As AT+CMGS wants it: octets without the service centre. */
  readonly length: number;
}

/** Bits of the first octet: sections 9.2.3.1 to 9.2.3.6. */
const SUBMIT = 0x01;
const VALIDITY_RELATIVE = 0x10;
const STATUS_REPORT = 0x20;
const USER_DATA_HEADER = 0x40;

/** Data coding schemes of TS 23.038 section 4, without a class. */
const SCHEMES = { 'gsm-7': 0x00, 'ucs-2': 0x08 } as const;

const DAY_min = 24 * 60;

/**
 * TP-Validity-Period, relative: section 9.2.3.12.1.
 *
 * @returns the octet of the shortest period that is not shorter
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function relativeValidity(validity_min: number): number {
  requireInDomain('validity, min', validity_min, 5, 63 * 7 * DAY_min);
  if (validity_min <= DAY_min / 2) return Math.ceil(validity_min / 5) - 1;
  if (validity_min <= DAY_min) return 143 + Math.ceil((validity_min - DAY_min / 2) / 30);
  if (validity_min <= 30 * DAY_min) return 166 + Math.ceil(validity_min / DAY_min);
  return 192 + Math.ceil(validity_min / (7 * DAY_min));
}

/** @throws SandlarderError BAD_REQUEST for a number that is none, OUT_OF_DOMAIN for what cannot be told */
export function encodeSubmit({ to, part, statusReport, validity_min, reference = 0 }: Submit): Pdu {
  requireInDomain('message reference', reference, 0, 255);
  const first =
    SUBMIT |
    VALIDITY_RELATIVE |
    (statusReport ? STATUS_REPORT : 0) |
    (part.concatenation ? USER_DATA_HEADER : 0);
  const octets = [
    first,
    reference,
    ...encodeAddress(to),
    0, // TP-Protocol-Identifier: plain short message, section 9.2.3.9.
    SCHEMES[part.coding],
    relativeValidity(validity_min),
    ...encodeUserData(part),
  ];
  return { hex: toHex([0, ...octets]), length: octets.length };
}
