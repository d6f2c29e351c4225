/** One message of a catalogue with its values. */
import { IntlMessageFormat } from 'intl-messageformat';
import type { Catalogue, MessageKey } from './catalogue.js';

export type Values = Readonly<Record<string, string | number>>;

/** No groups of thousands: French and others part them by a blank that is not in the alphabet of short messages. */
const NUMBER = {
  tenths: { minimumFractionDigits: 1, maximumFractionDigits: 1, useGrouping: false },
  halves: { maximumFractionDigits: 1, useGrouping: false },
  whole: { maximumFractionDigits: 0, useGrouping: false },
} as const;

const FORMATS = {
  number: NUMBER,
  date: { day: { day: 'numeric', month: 'long', timeZone: 'UTC' } },
} as const;

/** Parsed messages: parsing is slow, and a message never changes. */
const parsed = new WeakMap<Catalogue, Map<MessageKey, IntlMessageFormat>>();

function messageOf(catalogue: Catalogue, key: MessageKey): IntlMessageFormat {
  const known = parsed.get(catalogue) ?? new Map<MessageKey, IntlMessageFormat>();
  parsed.set(catalogue, known);
  const message =
    known.get(key) ??
    new IntlMessageFormat(catalogue.messages[key], catalogue.locale, FORMATS, { ignoreTag: true });
  known.set(key, message);
  return message;
}

/** The message in the catalogue's language; blanks around a value that is empty are folded. */
export function say(catalogue: Catalogue, key: MessageKey, values: Values = {}): string {
  return String(messageOf(catalogue, key).format({ ...values }))
    .replace(/ {2,}/g, ' ')
    .trim();
}

/** `one, another, a third`, as the language joins them. */
export function joined(catalogue: Catalogue, parts: readonly string[]): string {
  const [first = '', ...rest] = parts;
  return rest.reduce((one, next) => say(catalogue, 'join.comma', { one, next }), first);
}

/** A name as it can stand in one line: composed letters, and a blank for line breaks and control characters. */
export function plainName(name: string): string {
  return name
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Zl}\p{Zp}\s]+/gu, ' ')
    .trim();
}
