/** Chance that can be repeated: Mulberry32 (public domain), and what bytes become by it. */

export class Chance {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** In [0, 1). */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(this.#state ^ (this.#state >>> 15), this.#state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  }

  /** A whole number from 0 to below. */
  below(count: number): number {
    return Math.floor(this.next() * count);
  }

  of<Item>(items: readonly Item[]): Item {
    if (items.length === 0) throw new RangeError('chance: expected something to choose from, got nothing');
    return items[this.below(items.length)] as Item;
  }

  bytes(length: number): Buffer {
    return Buffer.from(Array.from({ length }, () => this.below(256)));
  }
}

/** What breaks readers: ends of ranges, numbers that are none, keys of every object, halves of characters. */
const NASTY = [
  'null',
  '1e999',
  '-0',
  '9007199254740993',
  '"__proto__"',
  '[]',
  '{}',
  '""',
  'NaN',
  '\\u0000',
  '\ud800',
  '[[[[',
].map((text) => Buffer.from(text));

/** One to four changes: a byte turned, parts left out, doubled or put in from elsewhere. */
export function mutated(chance: Chance, from: Buffer, others: readonly Buffer[]): Buffer {
  let bytes = from;
  for (let left = 1 + chance.below(4); left > 0; left -= 1) bytes = changed(chance, bytes, others);
  return bytes;
}

function changed(chance: Chance, bytes: Buffer, others: readonly Buffer[]): Buffer {
  const at = chance.below(bytes.length + 1);
  const to = at + chance.below(bytes.length - at + 1);
  const [head, part, tail] = [bytes.subarray(0, at), bytes.subarray(at, to), bytes.subarray(to)];
  const turned = (): Buffer => {
    const copy = Buffer.from(bytes);
    if (at < copy.length) copy[at] = (copy[at] as number) ^ (1 << chance.below(8));
    return copy;
  };
  switch (chance.below(6)) {
    case 0:
      return turned();
    case 1:
      return Buffer.concat([head, tail]);
    case 2:
      return Buffer.concat([head, part, part, tail]).subarray(0, 4096);
    case 3:
      return Buffer.concat([head, chance.of(NASTY), tail]);
    case 4:
      return Buffer.concat([head, chance.of(others).subarray(0, 64), tail]).subarray(0, 4096);
    default:
      return Buffer.concat([head, chance.bytes(1 + chance.below(8)), tail]);
  }
}
