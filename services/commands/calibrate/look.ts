/** `sandlarder calibrate look`: how the probes of a bench settle, once or again and again. */
import { setTimeout as wait } from 'node:timers/promises';
import { SandlarderError } from '../../core/errors.js';
import type { BenchAnswer } from '../../http/index.js';
import { onOutput as say } from '../say.js';
import { ServiceClient } from '../service-client.js';
import { benchPath, type ServiceFlags } from './bench.js';
import { benchLines } from './lines.js';

export interface LookFlags extends ServiceFlags {
  readonly follow?: boolean;
}

/** What a look uses of the world. */
export interface LookParts {
  readonly get: () => Promise<BenchAnswer>;
  readonly wait: (time_ms: number) => Promise<unknown>;
  readonly say: (line: string) => void;
  readonly now: () => Date;
}

const EVERY_ms = 10_000;

export async function look(id: string, flags: LookFlags): Promise<void> {
  const client = new ServiceClient(flags);
  const get = () => client.get<BenchAnswer>(benchPath(id));
  await lookAt(flags, { get, wait, say, now: () => new Date() });
}

/**
 * Once, or until every probe is captured or has settled. A service that goes away while it is followed is waited for,
 * and that is said once: it comes back with the bench as it was.
 */
export async function lookAt({ follow, json }: LookFlags, parts: LookParts): Promise<void> {
  let [answered, lost] = [false, false];
  for (;;) {
    const bench = await parts.get().catch((error: unknown) => {
      if (!(answered && follow && isAway(error))) throw error;
      return undefined;
    });
    if (bench === undefined) {
      if (!lost && !json) parts.say(`${clock(parts.now())}: the service does not answer; trying on`);
      lost = true;
    } else {
      [answered, lost] = [true, false];
      if (json) parts.say(JSON.stringify(bench));
      else if (follow) parts.say(clock(parts.now()));
      if (!json) for (const line of benchLines(bench, false)) parts.say(line);
      const waiting = bench.settling.filter(({ captured, settled }) => !captured && !settled);
      if (!follow || waiting.length === 0) return;
    }
    await parts.wait(EVERY_ms);
    if (!json && bench !== undefined) parts.say('');
  }
}

/** A service that is not there, or went while it answered: the client says the first, the platform the second. */
const isAway = (error: unknown): boolean =>
  error instanceof TypeError || (error instanceof SandlarderError && error.code === 'RECEIVER_UNAVAILABLE');

/** Of this machine's own zone, as on the wall beside the bench. */
const clock = (time: Date): string => time.toTimeString().slice(0, 8);
