/**
 * Whether what is written is kept, and whether what was kept is whole: from what becomes of every transaction, from a
 * look at the pages, and from the room that is left.
 */
import { damagedWords, damageOf, freeBytes, isStoreError, troubleOf } from '../archive/index.js';
import { SandlarderError } from '../core/errors.js';

/** Room on the disk below which it is told before it is full, bytes: a station of a thousand probes fills it in days. Judgement. */
export const LITTLE_ROOM_bytes = 64 * 1024 * 1024;

/** Between tries of a store that failed, while nothing comes in that would try it, ms. */
const TRY_ms = 5_000;

/** What is said of it, and what to do, stands before that. */
const DAMAGED = 'the database is damaged';

export interface StoreWatchParts {
  readonly directory: string;
  /** Told of damage, once. */
  readonly onDamage: (sentence: string) => void;
  /** A clock that only goes forward, ms. */
  readonly clock: () => number;
  readonly free?: (directory: string) => number | undefined;
}

export class StoreWatch {
  readonly #parts: StoreWatchParts;
  #trouble: string | undefined;
  #damage: string | undefined;
  #triedAt = Number.NEGATIVE_INFINITY;

  constructor(parts: StoreWatchParts) {
    this.#parts = parts;
  }

  /** Something was written. Damage stays until the database is another. */
  works(): void {
    this.#trouble = undefined;
  }

  /**
   * Something could not be written or read.
   *
   * @returns the error in words, STORE_UNAVAILABLE; undefined where it is none of the store's
   */
  failed(error: unknown): SandlarderError | undefined {
    if (!isStoreError(error)) return undefined;
    const damage = damageOf(error);
    if (damage !== undefined) this.damaged(damage);
    this.#trouble = damage === undefined ? troubleOf(error, this.#parts.directory) : DAMAGED;
    this.#triedAt = this.#parts.clock();
    return new SandlarderError('STORE_UNAVAILABLE', `nothing was stored: ${this.#trouble}`, { cause: error });
  }

  /** @param damage what is damaged, without an end */
  damaged(damage: string): void {
    if (this.#damage !== undefined) return;
    this.#damage = damagedWords(this.#parts.directory, damage);
    this.#parts.onDamage(this.#damage);
  }

  /** What keeps it from being written; undefined where nothing does. */
  get trouble(): string | undefined {
    return this.#trouble;
  }

  /** Whether it is time to try again what nothing that comes in tries. */
  get due(): boolean {
    return this.#trouble !== undefined && this.#parts.clock() - this.#triedAt >= TRY_ms;
  }

  /**
   * In words.
   *
   * @param unacknowledged readings wait for it, unacknowledged
   */
  problems(unacknowledged: boolean): string[] {
    const what = unacknowledged
      ? 'readings cannot be stored, and are not acknowledged until they can'
      : 'what comes now cannot be stored';
    const trouble = this.#trouble ?? (unacknowledged ? 'the store fails' : undefined);
    return [
      ...(this.#damage === undefined ? [] : [this.#damage]),
      ...(trouble === undefined ? [] : [`${what}: ${trouble}`]),
      ...(trouble === undefined ? this.#roomProblem() : []),
    ];
  }

  #roomProblem(): string[] {
    const { directory, free = freeBytes } = this.#parts;
    const left = free(directory);
    if (left === undefined || left >= LITTLE_ROOM_bytes) return [];
    return [`only ${Math.floor(left / 1e6)} MB are left on the disk of ${directory}: make room on it`];
  }
}
