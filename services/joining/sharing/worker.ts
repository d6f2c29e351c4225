/**
 * A worker of a centre: takes partitions of a folder as they are free, leaves some to others that hold less, and takes over
 * those of a worker that died. Of a partition the lock of its folder decides who has it.
 */
import { SandlarderError } from '../../core/errors.js';
import { partitionName } from '../../core/model/partition.js';
import type { Health } from '../../http/index.js';
import type { Log } from '../../log.js';
import { type Holdings, nextStep, PATIENCE_ms } from './claims.js';
import type { About, Crew, HeldPartition } from './crew.js';

/** A partition that is being served. */
export interface ServedPartition {
  readonly httpUrl: string;
  health(): Pick<Health, 'status' | 'accepting'>;
  close(): Promise<void>;
}

export interface WorkerParts {
  readonly partitions: number;
  readonly crew: Pick<Crew, 'name' | 'say' | 'others'>;
  /** Where the worker itself answers. */
  readonly url: string;
  /** @throws SandlarderError CONFLICT where another process has the folder */
  readonly open: (partition: number) => Promise<ServedPartition>;
  readonly log: Log;
  /** A clock that nobody sets, ms. */
  readonly clock: () => number;
  readonly after: (delay_ms: number, call: () => void) => () => void;
}

/** How often a worker looks for what changed among the others, ms. */
const LOOK_ms = 500;

/** Until a partition that cannot be opened is tried again, ms. */
const RETRY_ms = 10_000;

export class Worker {
  readonly #parts: WorkerParts;
  readonly #held = new Map<number, ServedPartition>();
  /** By partition: since when nobody has held it. */
  readonly #freeSince = new Map<number, number>();
  /** By partition that could not be opened: when it is tried again. */
  readonly #retryAt = new Map<number, number>();
  #opening: number | undefined;
  #others: ReadonlyMap<string, About> = new Map();
  #wasWhole = false;
  #closed = false;
  #cancel: () => void = () => undefined;
  #running: Promise<void>;

  /** Begins at once. */
  constructor(parts: WorkerParts) {
    this.#parts = parts;
    this.#say();
    this.#running = this.#run();
  }

  /** The partitions that it serves, in order. */
  get held(): ReadonlyMap<number, ServedPartition> {
    return new Map([...this.#held].sort(([one], [other]) => one - other));
  }

  /** All that live, this one first, by their names. */
  workers(): Map<string, About> {
    return new Map([[this.#parts.crew.name, this.#about()], ...this.#others]);
  }

  /** Partitions that nobody holds for longer than a change of hands takes. */
  forsaken(): number[] {
    const now = this.#parts.clock();
    return [...this.#freeSince]
      .filter(([, since]) => now - since >= 2 * PATIENCE_ms)
      .map(([partition]) => partition);
  }

  /** Leaves all it holds: others take it from there. */
  async close(): Promise<void> {
    this.#closed = true;
    this.#cancel();
    await this.#running;
    for (const partition of [...this.#held.keys()]) await this.#leave(partition);
  }

  async #run(): Promise<void> {
    try {
      while (!this.#closed && (await this.#step()));
    } catch (error) {
      this.#parts.log(`the other workers cannot be seen: ${(error as Error).message}`, 'workers');
    }
    if (this.#closed) return;
    this.#cancel = this.#parts.after(LOOK_ms, () => {
      this.#running = this.#run();
    });
  }

  /** @returns whether it changed anything: then it looks again at once */
  async #step(): Promise<boolean> {
    this.#others = this.#parts.crew.others();
    const holdings = this.#look();
    this.#tellWhole(holdings);
    const step = nextStep(holdings);
    if ('leave' in step) {
      await this.#leave(step.leave);
      return true;
    }
    for (const partition of 'take' in step ? step.take : []) if (await this.#take(partition)) return true;
    return false;
  }

  #look(): Holdings {
    const { partitions, crew, clock } = this.#parts;
    const others = new Map(
      [...this.#others].map(([name, { held }]) => [name, held.map(({ partition }) => partition)]),
    );
    const taken = new Set([...this.#held.keys(), ...[...others.values()].flat()]);
    const now = clock();
    for (let partition = 0; partition < partitions; partition += 1)
      if (taken.has(partition)) this.#freeSince.delete(partition);
      else if (!this.#freeSince.has(partition)) this.#freeSince.set(partition, now);
    const free = new Map([...this.#freeSince].map(([partition, since]) => [partition, now - since]));
    return { partitions, others, free, self: crew.name, mine: [...this.held.keys()] };
  }

  async #take(partition: number): Promise<boolean> {
    const { open, log, clock } = this.#parts;
    if (!(clock() >= (this.#retryAt.get(partition) ?? 0))) return false;
    this.#opening = partition;
    this.#say();
    try {
      this.#held.set(partition, await open(partition));
      this.#freeSince.delete(partition);
      this.#retryAt.delete(partition);
      log(`${partitionName(partition)}: taken, ${this.#held.size} held`);
      return true;
    } catch (error) {
      if (error instanceof SandlarderError && error.code === 'CONFLICT') return false;
      this.#retryAt.set(partition, clock() + RETRY_ms);
      log(
        `${partitionName(partition)} cannot be taken: ${(error as Error).message}`,
        `take ${partitionName(partition)}`,
      );
      return false;
    } finally {
      this.#opening = undefined;
      this.#say();
    }
  }

  async #leave(partition: number): Promise<void> {
    const served = this.#held.get(partition);
    this.#held.delete(partition);
    await served?.close();
    this.#say();
    this.#parts.log(`${partitionName(partition)}: left, ${this.#held.size} held`);
  }

  #tellWhole({ free, partitions }: Holdings): void {
    const isWhole = free.size === 0;
    if (isWhole && !this.#wasWhole) this.#parts.log(`all ${partitions} partitions are held`);
    this.#wasWhole = isWhole;
  }

  #about(): About {
    const held: HeldPartition[] = [...this.held].map(([partition, { httpUrl }]) => ({
      partition,
      url: httpUrl,
    }));
    const opening = this.#opening === undefined ? [] : [{ partition: this.#opening, url: '' }];
    return { pid: process.pid, url: this.#parts.url, held: [...held, ...opening] };
  }

  #say(): void {
    this.#parts.crew.say(this.#about());
  }
}
