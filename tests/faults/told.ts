/** A receiver that counts what it is told by the key of each message. */
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Undo } from '../bench/processes.js';

export interface Told {
  readonly url: string;
  /** How often each came. */
  readonly keys: ReadonlyMap<string, number>;
}

export async function receiver(undo: Undo): Promise<Told> {
  const keys = new Map<string, number>();
  const server = createServer(async (request, response) => {
    let body = '';
    for await (const chunk of request) body += String(chunk);
    const { key } = JSON.parse(body) as { key: string };
    keys.set(key, (keys.get(key) ?? 0) + 1);
    response.end();
  }).listen(0, '127.0.0.1');
  await once(server, 'listening');
  undo(() => server.close());
  return { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`, keys };
}

/** Messages that came more than once. */
export const repeated = ({ keys }: Told): number => [...keys.values()].filter((times) => times > 1).length;
