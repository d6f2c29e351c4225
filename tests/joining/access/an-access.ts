/** Access over a real database, with a clock that is set by hand and passwords that cost little. */
import { createAccess } from '../../../services/joining/access/access-ports.js';
import { openStores } from '../../support/open.js';

/** The least that scrypt takes. */
export const CHEAP = { log2N: 1, r: 1, p: 1 };
export const START = Date.UTC(2026, 10, 28, 8);
export const PASSWORD = 'sand over sand over roots';
export const HOME = { address: '192.0.2.7', device: 'a browser' };
export const AWAY = { address: '203.0.113.9', device: 'another' };

export function anAccess({ isOpenBefore = true, publicUrl = undefined as string | undefined } = {}) {
  const { registry, database, directory } = openStores();
  let now = START;
  const messages: number[] = [];
  const told = { changes: 0 };
  const access = createAccess({
    ...{ registry, isOpenBefore, publicUrl, passwordCost: CHEAP, now: () => now },
    hasBed: (id) => ['pit-a', 'pit-b'].includes(id),
    hasPerson: (site, id) => site === 'ridge-station' && id === 'amina',
    hasWay: (via) => via === 'sms',
    onMessage: () => messages.push(now),
    onChange: () => {
      told.changes += 1;
    },
  });
  const { ports } = access;
  return {
    ...{ access, ports, registry, database, directory, messages, told },
    /** ms. */
    pass: (span_ms: number) => {
      now += span_ms;
    },
    /** The first steward, by the link. */
    steward: async (name = 'wanja') => {
      const signedIn = await ports.useLink(access.firstLink() ?? '', { name, password: PASSWORD }, HOME);
      if (signedIn.kind !== 'in') throw new Error(`expected the first steward in, got ${signedIn.kind}`);
      return signedIn;
    },
    /** Somebody else with a password. */
    somebody: async (name: string, body: object = {}) => {
      const account = { shown: name, role: 'technician', beds: [], person: null, closed: false, ...body };
      ports.putAccount(name, account as never);
      return ports.useLink(ports.linkFor(name).secret, { password: PASSWORD }, HOME);
    },
  };
}
