/** `sandlarder drill --bed BED`: who gets a marked test, and how long it takes. */
import { setTimeout as wait } from 'node:timers/promises';
import type { DrillAnswer } from '../http/index.js';
import { readNumber } from './numbers.js';
import { onOutput as say } from './say.js';
import { ServiceClient, type ServiceFlags } from './service-client.js';

export interface DrillFlags extends ServiceFlags {
  readonly bed: string;
  readonly by: string;
  readonly wait: string;
  readonly json?: boolean;
}

const EVERY_ms = 500;

const isWaiting = ({ after_s, gone }: DrillAnswer['messages'][number]): boolean => after_s === null && gone;

/** @throws SandlarderError WRONG_USAGE, and what the service refuses with */
export async function drill(flags: DrillFlags): Promise<void> {
  const { bed, by, json = false } = flags;
  const until = Date.now() + 1000 * readNumber('--wait', flags.wait, 0, 3600);
  const client = new ServiceClient(flags);
  let found = await client.post<DrillAnswer>('/api/drills', { bed, by });
  while (found.messages.some(isWaiting) && Date.now() < until) {
    await wait(EVERY_ms);
    found = await client.get<DrillAnswer>(`/api/drills/${found.id}`);
  }
  if (json) say(JSON.stringify(found));
  else for (const line of linesOf(found)) say(line);
}

function linesOf({ messages, without }: DrillAnswer): string[] {
  return [
    ...messages.map(({ person, via, after_s, received_s, gone, error }) => {
      const waits = gone ? `not handed over yet${error ? `: ${error}` : ''}` : `given up: ${error}`;
      const received = received_s === null ? '' : `, received after ${received_s.toFixed(1)} s`;
      const handed = after_s === null ? waits : `handed over after ${after_s.toFixed(1)} s${received}`;
      return `${person} by ${via}: ${handed}`;
    }),
    ...without.map((person) => `${person}: no way that can be used here`),
  ];
}
