/** The fields of a CAP 1.2 message that have a form of their own, checked. */
import { SandlarderError } from '../errors.js';
import { EARLIEST_TIME_ms, formatTime, LATEST_TIME_ms } from '../model/time.js';
import type { AlarmEvent } from './text.js';
import { type XmlElement, xmlText } from './xml.js';

/** A message that went out before. */
export interface CapReference {
  readonly identifier: string;
  /** Its `sentAt`, ms. */
  readonly sentAt: number;
}

/** `Public` is left out on purpose: a store is nobody's business but its people's. */
export type CapScope =
  | { readonly type: 'Private'; readonly addresses: readonly string[] }
  | { readonly type: 'Restricted'; readonly restriction: string };

export const refuse = (name: string, expected: string, got: unknown): never => {
  throw new SandlarderError('OUT_OF_DOMAIN', `${name} must be ${expected}, got ${JSON.stringify(got)}`);
};

/** Section 3.2.1 for identifier and sender: they are put together with commas and blanks between. */
export function requireName(name: string, text: string): string {
  return /^[^\s,<&\p{C}]{1,200}$/u.test(text)
    ? text
    : refuse(name, '1 to 200 characters without blanks, commas, "<" and "&"', text);
}

export function requireWords(name: string, text: string): string {
  const words = xmlText(text).trim();
  return words === '' ? refuse(name, 'a text', text) : words;
}

/** Section 3.3.2: whole seconds and an offset in figures; UTC is `-00:00`, and `Z` is not allowed. */
export function capTime(name: string, time: number): string {
  if (!(time >= EARLIEST_TIME_ms && time < LATEST_TIME_ms)) refuse(name, 'a time within 2000..2100', time);
  return `${formatTime(Math.floor(time / 1000) * 1000).slice(0, 19)}-00:00`;
}

/** The name of the message about an event of an alarm: the same by every way. */
export function capIdentifier(alarmId: string, event: AlarmEvent, toldBefore = 0): string {
  if (!(Number.isInteger(toldBefore) && toldBefore >= 0)) refuse('toldBefore', 'a count', toldBefore);
  return requireName(
    'alarm id',
    toldBefore > 0 ? `${alarmId}.${event}.${toldBefore}` : `${alarmId}.${event}`,
  );
}

/** Section 3.2.1 addresses: blanks between, so one that holds blanks stands in quotes. */
function addressesOf(addresses: readonly string[]): string {
  if (addresses.length === 0) refuse('addresses', 'one or more for a private message', addresses);
  return addresses
    .map((address) => {
      const words = requireWords('address', address).replace(/\s+/g, ' ');
      if (words.includes('"')) refuse('address', 'without quotes', address);
      return words.includes(' ') ? `"${words}"` : words;
    })
    .join(' ');
}

export function scopeElements(scope: CapScope): XmlElement[] {
  return scope.type === 'Private'
    ? [
        ['scope', 'Private'],
        ['addresses', addressesOf(scope.addresses)],
      ]
    : [
        ['scope', 'Restricted'],
        ['restriction', requireWords('restriction', scope.restriction)],
      ];
}

/** Section 3.2.1 references: `sender,identifier,sent`, blanks between; for an update or a cancel. */
export function referenceElements(
  event: AlarmEvent,
  sender: string,
  earlier: readonly CapReference[] = [],
): XmlElement[] {
  if (event === 'raised') return [];
  if (earlier.length === 0) refuse('earlier', `one or more messages for the event "${event}"`, earlier);
  const references = earlier.map(({ identifier, sentAt }) =>
    [sender, requireName('earlier identifier', identifier), capTime('earlier sentAt', sentAt)].join(','),
  );
  return [['references', references.join(' ')]];
}
