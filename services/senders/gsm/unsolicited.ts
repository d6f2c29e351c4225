/** What a modem says unasked: 3GPP TS 27.005 section 3.4.1, TS 27.007 sections 7.2 and 8.3. */

export type Unsolicited =
  /** +CMTI, +CDSI: something new lies in a storage. */
  | { readonly type: 'stored'; readonly memory: string; readonly index: number }
  /** +CMT: a message, not stored. */
  | { readonly type: 'message'; readonly pdu: string }
  /** +CDS: a status report, not stored. */
  | { readonly type: 'report'; readonly pdu: string }
  | { readonly type: 'registration' }
  | { readonly type: 'sim' }
  | { readonly type: 'ring' };

export type Heading = 'message' | 'report';

export type Sorted =
  | { readonly type: 'event'; readonly event: Unsolicited }
  /** The data unit comes in the next line. */
  | { readonly type: 'heading'; readonly heading: Heading; readonly octets: number };

const REGISTRATION = /^\+C(?:E|G)?REG: ?[0-9]/;
/** An answer to AT+CREG? has the setting before the state: two plain numbers. */
const REGISTRATION_ANSWER = /^\+C(?:E|G)?REG: ?[0-9] ?, ?[0-9]/;

/**
 * Tells a line that came unasked from one of an answer.
 *
 * @param asked the command that waits for its answer, such as `AT+CREG?`
 * @returns undefined for a line that is no such message, or that belongs to the answer
 */
export function sortUnsolicited(line: string, asked: string | undefined): Sorted | undefined {
  const stored = /^\+C(?:MT|DS)I: ?"([A-Z]{2})" ?, ?([0-9]{1,5})$/.exec(line);
  if (stored)
    return {
      type: 'event',
      event: { type: 'stored', memory: stored[1] ?? '', index: Number(stored[2]) },
    };
  const heading = /^\+(CMT|CDS): ?(?:.*, ?)?([0-9]+)$/.exec(line);
  if (heading)
    return {
      type: 'heading',
      heading: heading[1] === 'CMT' ? 'message' : 'report',
      octets: Number(heading[2]),
    };
  if (/^RING$/.test(line)) return { type: 'event', event: { type: 'ring' } };
  const registration = REGISTRATION.test(line);
  if (registration && !(REGISTRATION_ANSWER.test(line) && asksFor(asked, line)))
    return { type: 'event', event: { type: 'registration' } };
  if (/^\+CPIN:/.test(line) && !asksFor(asked, line)) return { type: 'event', event: { type: 'sim' } };
  return undefined;
}

const asksFor = (asked: string | undefined, line: string): boolean =>
  asked?.startsWith(`AT${line.slice(0, line.indexOf(':'))}`) ?? false;

/**
 * A data unit as everything here takes it. The length that is told leaves out the service centre's address; some
 * makers leave it out of the digits too (common practice, no source).
 */
export const withCentre = (digits: string, octets: number): string =>
  digits.length === 2 * octets ? `00${digits}` : digits;

/** A line that can be a data unit. */
export const isPdu = (line: string): boolean => /^(?:[0-9A-F]{2}){2,}$/i.test(line);
