/** Sends readings; where the server refuses some, finds them by halves, so that the others go on. */
import { failureOf } from './failure.js';
import type { SpooledReading } from './spool-store.js';

/** Has the server keep lines, or rejects. */
export type Write = (lines: string) => Promise<void>;

export interface Refused {
  readonly reading: SpooledReading;
  /** What the server said. */
  readonly reason: string;
}

/** The server is in trouble: the readings wait. */
export class ServerTrouble extends Error {
  /** Whether it answers so until somebody sees to it. */
  readonly standing: boolean;

  constructor(reason: string, standing: boolean) {
    super(reason);
    this.standing = standing;
  }
}

/**
 * Sends a batch. What it held before may be sent again: the same series and time is the same point.
 *
 * @param linesOf readings as the server takes them
 * @param lines of all the readings
 * @returns the readings that the server will never take
 * @throws ServerTrouble where it may take them later
 */
export async function send(
  write: Write,
  linesOf: (readings: readonly SpooledReading[]) => string,
  readings: readonly SpooledReading[],
  lines = linesOf(readings),
): Promise<Refused[]> {
  if (lines === '') return [];
  try {
    await write(lines);
    return [];
  } catch (error) {
    const { kind, reason, standing } = failureOf(error);
    if (kind === 'trouble') throw new ServerTrouble(reason, standing);
    const [only, ...others] = readings;
    if (only && others.length === 0) return [{ reading: only, reason }];
    const half = Math.ceil(readings.length / 2);
    return [
      ...(await send(write, linesOf, readings.slice(0, half))),
      ...(await send(write, linesOf, readings.slice(half))),
    ];
  }
}
