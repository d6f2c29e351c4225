/**
 * Text as bytes, written in place: an export has a hundred bytes a row, and strings for each would cost more than
 * reading the rows.
 */

/** Room beyond what is asked for, bytes. */
const GROWTH_bytes = 64 * 1024;

/** Up to here a loop is quicker than a call, bytes. */
const SHORT_bytes = 16;

const DIGIT_0 = 0x30;
const MINUS = 0x2d;
const POINT = 0x2e;

/** Digits of 0 to 99. */
const TENS = Uint8Array.from({ length: 100 }, (_, value) => DIGIT_0 + Math.floor(value / 10));
const ONES = Uint8Array.from({ length: 100 }, (_, value) => DIGIT_0 + (value % 10));

/** Up to here a number with three decimals has at most 15 digits, which a double tells apart. */
const MOST_PLAIN = 1e9;

export class ByteText {
  #bytes: Buffer;
  #at = 0;

  constructor(room_bytes: number) {
    this.#bytes = Buffer.allocUnsafe(room_bytes);
  }

  /** Sees to it that so many more bytes can be written. Call it before the methods below. */
  ensure(room_bytes: number): void {
    if (this.#at + room_bytes <= this.#bytes.length) return;
    const larger = Buffer.allocUnsafe(2 * this.#bytes.length + room_bytes + GROWTH_bytes);
    this.#bytes.copy(larger, 0, 0, this.#at);
    this.#bytes = larger;
  }

  /** Bytes written since the last time they were taken. */
  get length(): number {
    return this.#at;
  }

  /** Writes once more what stands between two lengths. */
  again(from: number, to: number): void {
    for (let at = from; at < to; at += 1) this.#bytes[this.#at + at - from] = this.#bytes[at] as number;
    this.#at += to - from;
  }

  byte(code: number): void {
    this.#bytes[this.#at] = code;
    this.#at += 1;
  }

  copy(bytes: Uint8Array): void {
    if (bytes.length <= SHORT_bytes)
      for (let at = 0; at < bytes.length; at += 1) this.#bytes[this.#at + at] = bytes[at] as number;
    else this.#bytes.set(bytes, this.#at);
    this.#at += bytes.length;
  }

  /** Two digits of 0 to 99. */
  twoDigits(value: number): void {
    this.#bytes[this.#at] = TENS[value] as number;
    this.#bytes[this.#at + 1] = ONES[value] as number;
    this.#at += 2;
  }

  /** The shortest text that reads as the same number, as `String` gives it: at most 25 bytes. */
  number(value: number): void {
    const size = Math.abs(value);
    if (size < MOST_PLAIN)
      for (let decimals = 0, scale = 1; decimals <= 3; decimals += 1, scale *= 10) {
        const scaled = Math.round(size * scale);
        if (scaled / scale !== size) continue;
        if (value < 0) this.byte(MINUS);
        this.#decimal(scaled, decimals);
        return;
      }
    this.ascii(String(value));
  }

  ascii(text: string): void {
    for (let at = 0; at < text.length; at += 1) this.byte(text.charCodeAt(at));
  }

  /** Whole digits with a point before the last ones. */
  #decimal(scaled: number, decimals: number): void {
    let digits = 1;
    for (let bound = 10; scaled >= bound; bound *= 10) digits += 1;
    const shown = Math.max(digits, decimals + 1);
    let at = this.#at + shown + (decimals > 0 ? 1 : 0);
    this.#at = at;
    let rest = scaled;
    for (let place = 0; place < shown; place += 1) {
      if (place === decimals && decimals > 0) {
        at -= 1;
        this.#bytes[at] = POINT;
      }
      const next = Math.floor(rest / 10);
      at -= 1;
      this.#bytes[at] = DIGIT_0 + rest - 10 * next;
      rest = next;
    }
  }

  /** What was written since the last time; it is not written over. */
  take(): Buffer {
    const taken = this.#bytes.subarray(0, this.#at);
    this.#bytes = Buffer.allocUnsafe(this.#bytes.length);
    this.#at = 0;
    return taken;
  }
}
