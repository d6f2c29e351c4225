/**
 * Who of the workers on one centre's folder lives, and what each says that it holds. A worker lives while it has the lock of
 * its own folder, which the operating system takes from it when it ends, however it ends.
 */
import { randomBytes } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { lockDirectory, makePrivateFolder } from '../../archive/index.js';
import { SandlarderError } from '../../core/errors.js';
import { PARTITIONS } from '../../core/model/partition.js';

const aboutSchema = z.object({
  pid: z.int(),
  url: z.string(),
  held: z.array(z.object({ partition: z.int().min(0), url: z.string() })).max(PARTITIONS.most),
});

/** A partition, and where it answers questions; an empty text while it is being opened. */
export interface HeldPartition {
  readonly partition: number;
  readonly url: string;
}

/** What a worker says of itself. */
export interface About {
  readonly pid: number;
  /** Where the worker itself answers questions. */
  readonly url: string;
  readonly held: readonly HeldPartition[];
}

/** Times that a name is tried that another worker took for a dead one's. */
const TRIES = 5;

export class Crew {
  readonly name: string;
  readonly #folder: string;
  readonly #release: () => void;

  /** @throws SandlarderError STORE_UNAVAILABLE */
  constructor(directory: string) {
    this.#folder = join(directory, 'workers');
    const joined = joinUnderNewName(this.#folder);
    this.name = joined.name;
    this.#release = joined.release;
  }

  /** Says what this worker holds. */
  say(about: About): void {
    const file = this.#fileOf(this.name);
    writeFileSync(`${file}.new`, `${JSON.stringify(about)}\n`);
    renameSync(`${file}.new`, file);
  }

  /** The others that live, by their names, in order; what the dead have left of themselves is cleared away. */
  others(): Map<string, About> {
    const names = readdirSync(this.#folder).filter((name) => name !== this.name);
    const living = names.sort().filter((name) => !this.#isDead(name));
    return new Map(living.map((name) => [name, this.#read(name)]));
  }

  /** Others see at once that it is gone. */
  leave(): void {
    rmSync(join(this.#folder, this.name), { recursive: true, force: true });
    this.#release();
  }

  #isDead(name: string): boolean {
    try {
      const release = lockDirectory(join(this.#folder, name));
      // While the lock is held: who is just beginning under this name sees that its file is gone.
      rmSync(join(this.#folder, name), { recursive: true, force: true });
      release();
      return true;
    } catch (error) {
      if (error instanceof SandlarderError && error.code === 'CONFLICT') return false;
      throw error;
    }
  }

  #read(name: string): About {
    try {
      return aboutSchema.parse(JSON.parse(readFileSync(this.#fileOf(name), 'utf8')));
    } catch {
      // It begins, or leaves just now.
      return { pid: 0, url: '', held: [] };
    }
  }

  #fileOf(name: string): string {
    return join(this.#folder, name, 'about.json');
  }
}

function joinUnderNewName(folder: string): { name: string; release: () => void } {
  makePrivateFolder(folder);
  for (let tried = 1; ; tried += 1) {
    const name = `w${randomBytes(4).toString('hex')}`;
    try {
      const release = lockDirectory(join(folder, name));
      if (existsSync(join(folder, name, 'serving.lock'))) return { name, release };
      release();
    } catch (error) {
      if (tried >= TRIES) throw error;
    }
  }
}
