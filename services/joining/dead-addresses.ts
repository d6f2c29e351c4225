/** Addresses at which messages do not arrive. */
import { HOUR_ms, MINUTE_ms } from '../core/model/time.js';
import type { Registry } from '../registry/index.js';

/** An address is dead for now when a message has waited so long and was tried so often. Judgement. */
const STUCK = { attempts: 3, ms: 15 * MINUTE_ms } as const;
/** Messages given up are trouble for so long, or until one arrives. Judgement. */
const GIVEN_UP_ms = 24 * HOUR_ms;

type Address = { readonly via: string; readonly to: string };

const keyed = (address: Address): [string, Address] => [`${address.via} ${address.to}`, address];

/** Where messages wait and are tried again in vain: the next way of a person is used. */
export const stuckAddresses = ({ outbox }: Registry, now: number): { via: string; to: string }[] =>
  outbox.stuck(STUCK.attempts, now - STUCK.ms);

/** In words for whoever may ask, so that no address is named: by way, at how many addresses nothing arrives. */
export function deadAddressProblems(registry: Registry, now: number): string[] {
  const dead = new Map(
    [...stuckAddresses(registry, now), ...registry.outbox.refusing(now - GIVEN_UP_ms)].map(keyed),
  );
  // Who asked that messages stop gets none, and that is no trouble.
  for (const address of registry.answers.stopped()) dead.delete(keyed(address)[0]);
  const byWay = new Map<string, number>();
  for (const { via } of dead.values()) byWay.set(via, (byWay.get(via) ?? 0) + 1);
  return [...byWay].map(
    ([via, count]) =>
      `messages by ${via} do not arrive at ${count} ${count === 1 ? 'address' : 'addresses'}: the log says why`,
  );
}
