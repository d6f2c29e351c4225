/** What a running service watches of itself: its store and its clock. */
import { damagedWords, damageOf, isOpenToOthers, troubleOf } from '../archive/index.js';
import { SandlarderError } from '../core/errors.js';
import type { MessageLimits } from '../intake/index.js';
import type { Log } from '../log.js';
import type { Registry } from '../registry/index.js';
import { ClockWatch } from './clock-watch.js';
import { LookOver } from './look-over.js';
import type { Station } from './station.js';
import { StoreWatch } from './store-watch.js';
import type { Telling } from './telling.js';

export interface SelfWatchParts {
  readonly directory: string;
  readonly own: Registry['own'];
  readonly log: Log;
}

export class SelfWatch {
  readonly store: StoreWatch;
  readonly clock = new ClockWatch({ now: Date.now, steady: () => performance.now() });
  readonly #lookOver: LookOver;
  readonly #directory: string;
  readonly #log: Log;
  #told: string | undefined;

  constructor({ directory, own, log }: SelfWatchParts) {
    this.#log = log;
    this.#directory = directory;
    this.store = new StoreWatch({
      directory,
      clock: () => performance.now(),
      onDamage: (sentence) => log(sentence, 'damage'),
    });
    this.#lookOver = new LookOver({
      ...{ directory, own, now: Date.now },
      onDamage: (damage) => this.store.damaged(damage),
      onError: (error) => log(`the pages of the database could not be looked at: ${String(error)}`, 'pages'),
    });
  }

  /** @param unclean the service before this one did not end by itself */
  begin(unclean: boolean): void {
    this.#lookOver.begin(unclean);
    if (isOpenToOthers(this.#directory))
      this.#log(
        `other users of this machine can enter ${this.#directory}, where people's numbers and sign-ins are: chmod 700 ${this.#directory}`,
        'folder',
      );
  }

  /** Once a second: whether the clock was set, and whether a store that failed works again. */
  look({ station, telling, registry }: { station: Station; telling: Telling; registry: Registry }): void {
    try {
      this.#followClock(telling);
      if (this.store.due) station.inTransaction(() => registry.own.set('store-tried-at', `${Date.now()}`));
    } catch (error) {
      this.noticed(error);
    }
    this.#tell(this.store.trouble);
  }

  /** Something failed: where it is the store, that is told. */
  noticed(error: unknown): void {
    this.store.failed(error);
  }

  /** Where the clock was set back, readings of the time before are not of the future. */
  limits(limits: MessageLimits): MessageLimits {
    const behind_ms = this.clock.behind_ms();
    if (behind_ms === 0) return limits;
    return { ...limits, futureAllowance_ms: limits.futureAllowance_ms + behind_ms };
  }

  close(): void {
    this.#lookOver.close();
  }

  #followClock(telling: Telling): void {
    const by = this.clock.untaken_ms();
    if (by === 0) return;
    this.#log(this.clock.problems().at(-1) ?? 'the clock of this machine was set', 'clock');
    telling.clockSet(by);
    this.clock.taken(by);
  }

  #tell(trouble: string | undefined): void {
    if (trouble !== undefined && this.#told !== trouble) this.#log(`the store: ${trouble}`, 'store trouble');
    if (trouble === undefined && this.#told !== undefined) this.#log('the store works again');
    this.#told = trouble;
  }
}

/** A start that met a damaged page, or another trouble of the store, says what to do. */
export function damageInWords(error: unknown, directory: string): unknown {
  if (error instanceof SandlarderError) return error;
  const damage = damageOf(error);
  const words = damage === undefined ? troubleOf(error, directory) : damagedWords(directory, damage);
  return words === undefined ? error : new SandlarderError('STORE_UNAVAILABLE', words, { cause: error });
}
