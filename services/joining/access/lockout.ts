/**
 * Waits that grow with every attempt that failed, by a key such as a name or an address. Nobody is kept out for ever: the
 * longest wait is bounded, and what was long ago is forgotten.
 */
import { HOUR_ms, MINUTE_ms } from '../../core/model/time.js';

export interface LockoutLimits {
  /** Attempts before anybody waits. */
  readonly free: number;
  /** The first wait; each further one is twice as long. ms */
  readonly first_ms: number;
  readonly most_ms: number;
  /** After so long without an attempt all is forgotten. ms */
  readonly forget_ms: number;
  /** Keys that are kept: whoever tries with more drives out the oldest. */
  readonly keys: number;
}

/** Judgement: 5 by name and 20 by address (many share one) before the first wait of 2 s, 15 minutes at the longest. */
const SHARED = { first_ms: 2_000, most_ms: 15 * MINUTE_ms, forget_ms: HOUR_ms, keys: 5_000 };
export const NAME_LOCKOUT: LockoutLimits = Object.freeze({ ...SHARED, free: 5 });
export const ADDRESS_LOCKOUT: LockoutLimits = Object.freeze({ ...SHARED, free: 20 });

interface Tried {
  readonly count: number;
  readonly at: number;
}

export class Lockout {
  readonly #limits: LockoutLimits;
  /** Wall clock, ms. */
  readonly #now: () => number;
  /** The one tried longest ago first. */
  readonly #tried = new Map<string, Tried>();

  constructor(limits: LockoutLimits, now: () => number) {
    this.#limits = limits;
    this.#now = now;
  }

  get size(): number {
    return this.#tried.size;
  }

  /** @returns seconds to wait before the next attempt; 0 where it may be made */
  wait_s(key: string): number {
    const tried = this.#of(key);
    if (!tried) return 0;
    const { free, first_ms, most_ms } = this.#limits;
    const over = tried.count - free;
    if (over < 0) return 0;
    const wait_ms = Math.min(most_ms, first_ms * 2 ** Math.min(over, 30));
    return Math.max(0, Math.ceil((tried.at + wait_ms - this.#now()) / 1000));
  }

  /** Counts an attempt before it is looked at: of many at once none is free. */
  attempt(key: string): void {
    const count = (this.#of(key)?.count ?? 0) + 1;
    this.#tried.delete(key);
    this.#tried.set(key, { count, at: this.#now() });
    if (this.#tried.size <= this.#limits.keys) return;
    const [oldest] = this.#tried.keys();
    if (oldest !== undefined) this.#tried.delete(oldest);
  }

  /** It was right: nothing is held against the key any more. */
  clear(key: string): void {
    this.#tried.delete(key);
  }

  /** Also forgets where the clock was put back. */
  #of(key: string): Tried | undefined {
    const tried = this.#tried.get(key);
    if (!tried) return undefined;
    const age_ms = this.#now() - tried.at;
    if (age_ms >= 0 && age_ms < this.#limits.forget_ms) return tried;
    this.#tried.delete(key);
    return undefined;
  }
}

/** Of an IPv6 address the half that one subscriber has. */
export function keyOfAddress(address: string): string {
  const plain = address.replace(/^::ffff:(?=\d+\.)/i, '');
  if (!plain.includes(':')) return plain;
  const [head = '', tail = ''] = plain.split('::', 2);
  const front = head.split(':').filter(Boolean);
  const back = plain.includes('::') ? tail.split(':').filter(Boolean) : [];
  const zeros = Array<string>(Math.max(0, 8 - front.length - back.length)).fill('0');
  return [...front, ...zeros, ...back].slice(0, 4).join(':');
}
