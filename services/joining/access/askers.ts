/** Who asks, by what they show: a session's or a token's secret. */
import { DAY_ms, HOUR_ms } from '../../core/model/time.js';
import type { AskedFrom, Asker, NewSession } from '../../http/index.js';
import type { AccessStores, Account } from '../../registry/index.js';
import { hashOf, isSame, newId, newSecret } from './secrets.js';

/** Judgement: a keeper looks every second week, and signs in anew four times a year. */
const SESSION = { idle_ms: 21 * DAY_ms, most_ms: 90 * DAY_ms };

/** How often it is written down that somebody is there, ms. */
const NOTE_ms = HOUR_ms;

/** Sessions of one account: a telephone, a desk, and those that were forgotten. */
const MOST_SESSIONS = 10;

/** For how long what has ended can still be looked up in a file, ms. */
const FORGET_ms = 90 * DAY_ms;

/** What browsers say of themselves, cut. Characters. */
const DEVICE_characters = 200;

export const askerOf = ({ name, shown, role, beds }: Account, session: string | null): Asker => ({
  ...{ kind: 'person', name, shown, role, beds, session },
});

export class Askers {
  readonly #stores: AccessStores;
  /** Wall clock, ms. */
  readonly #now: () => number;

  constructor(stores: AccessStores, now: () => number) {
    this.#stores = stores;
    this.#now = now;
  }

  ofSession(secret: string): Asker | undefined {
    const [hash, now] = [hashOf(secret), this.#now()];
    const session = this.#stores.sessions.get(hash, now);
    if (!(session && isSame(session.hash, hash))) return undefined;
    const account = this.#stores.accounts.get(session.account);
    if (!account || account.closedAt !== null) return undefined;
    if (!(Math.abs(now - session.usedAt) < NOTE_ms))
      this.#stores.sessions.used(session.id, now, endOf(session.madeAt, now));
    return askerOf(account, session.id);
  }

  ofToken(secret: string): Asker | undefined {
    const [hash, now] = [hashOf(secret), this.#now()];
    const token = this.#stores.tokens.get(hash, now);
    if (!(token && isSame(token.hash, hash))) return undefined;
    if (!(Math.abs(now - (token.usedAt ?? 0)) < NOTE_ms)) this.#stores.tokens.used(token.id, now);
    const { name, role, beds } = token;
    return { kind: 'machine', name, shown: name, role, beds, session: null };
  }

  /** Within the caller's transaction. */
  begin(account: Account, { address, device }: AskedFrom): NewSession {
    const [secret, id, now] = [newSecret(), newId(), this.#now()];
    const { sessions, links } = this.#stores;
    const endsAt = endOf(now, now);
    sessions.forget(now - FORGET_ms);
    links.forget(now - FORGET_ms);
    sessions.add(hashOf(secret), {
      ...{ id, account: account.name, madeAt: now, endsAt, address },
      device: device.slice(0, DEVICE_characters),
    });
    sessions.revokeSurplus(account.name, MOST_SESSIONS, now);
    return { secret, endsAt: now + SESSION.most_ms, asker: askerOf(account, id) };
  }

  /** Whether the account was signed in to from there lately. */
  knows(account: string, address: string): boolean {
    return this.#stores.sessions.knows(account, address, this.#now() - FORGET_ms);
  }
}

const endOf = (madeAt: number, usedAt: number): number =>
  Math.min(madeAt + SESSION.most_ms, usedAt + SESSION.idle_ms);
