/** Reads what was typed into the fields of a form, and gathers what is not as expected, so that all of it is said at once. */
import { number as asNumber } from '../words/numbers.js';
import { say } from '../words/say.js';
import { NotAsExpected, type Wrongs } from './form.js';
import { typedTime } from './time-field.js';
import { typedNumber } from './typed-number.js';

export interface Range {
  readonly least: number;
  readonly most: number;
  readonly whole?: boolean;
}

export class Typed {
  readonly #wrongs: Record<string, string> = {};

  get wrongs(): Wrongs {
    return this.#wrongs;
  }

  wrong(place: string, text: string): void {
    this.#wrongs[place] ??= text;
  }

  /** A number, if there is one. @param place pointer of the field, without `#/` */
  maybe(place: string, text: string, range: Range): number | undefined {
    const value = typedNumber(text);
    if (value === undefined) return undefined;
    const { least, most, whole = false } = range;
    if (value >= least && value <= most && (!whole || Number.isInteger(value))) return value;
    this.wrong(place, expected(range));
    return undefined;
  }

  /** A number that must be there; NaN where it is not. */
  number(place: string, text: string, range: Range): number {
    if (typedNumber(text) === undefined) this.wrong(place, expected(range));
    return this.maybe(place, text, range) ?? Number.NaN;
  }

  /** A text that must be there. */
  text(place: string, text: string): string {
    if (text.trim() === '') this.wrong(place, say('parts.expectedText'));
    return text.trim();
  }

  /** A time as a field has it, ISO 8601; empty where it is none. */
  time(place: string, text: string): string {
    const time = typedTime(text);
    if (time === undefined) this.wrong(place, say('parts.expectedTime'));
    return time ?? '';
  }

  /** @throws NotAsExpected where something was not */
  done(): void {
    if (Object.keys(this.#wrongs).length > 0) throw new NotAsExpected(this.#wrongs);
  }
}

function expected({ least, most, whole }: Range): string {
  const values = { least: plain(least), most: plain(most) };
  return whole ? say('parts.expectedWhole', values) : say('parts.expectedNumber', values);
}

const plain = (value: number): string =>
  asNumber(value, Number.isInteger(value) ? 0 : Math.min(3, String(value).split('.')[1]?.length ?? 3));

/** A key that is there only where something was typed. */
export function ifTyped<Key extends string>(key: Key, text: string): Partial<Record<Key, string>> {
  const plainText = text.trim();
  return plainText === '' ? {} : ({ [key]: plainText } as Record<Key, string>);
}
