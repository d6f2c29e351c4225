/** History of readings at rest, whoever keeps it: what copying asks of both sides. */
import type { StoredReading } from '../reading-store.js';

export interface ProbeName {
  readonly site: string;
  readonly probe: string;
}

export interface Stretch {
  /** Event time, ms, inclusive. */
  readonly from: number;
  /** Event time, ms, exclusive. */
  readonly to: number;
}

export interface History {
  /** In order of site and probe. */
  probes(): Promise<readonly ProbeName[]>;
  /** From the first reading of a probe to just after its last; undefined where it has none. */
  span(name: ProbeName): Promise<Stretch | undefined>;
  /** Event time, ms, from which on readings can be given and taken one by one; 0 where all can. */
  since(name: ProbeName): number;
  /** In order of time, some at a time. */
  pages(name: ProbeName, stretch: Stretch): AsyncIterable<readonly StoredReading[]>;
  /** Keeps readings; those that are there already do no harm. */
  put(name: ProbeName, readings: readonly StoredReading[]): Promise<void>;
}
