/** Signing in, by a password or by a link that works once, and changing a password. */
import { SandlarderError } from '../../core/errors.js';
import { ACCOUNT_NAME, passwordProblem } from '../../core/model/password.js';
import { HOUR_ms } from '../../core/model/time.js';
import type { AskedFrom, Asker, Chosen, LinkPurposeView, NewSession, SignedIn } from '../../http/index.js';
import type { AccessStores, Account, SignInLink } from '../../registry/index.js';
import type { Askers } from './askers.js';
import type { AuditDesk } from './audit-desk.js';
import { ADDRESS_LOCKOUT, keyOfAddress, Lockout, NAME_LOCKOUT } from './lockout.js';
import type { Passwords } from './passwords.js';
import { hashOf, newSecret } from './secrets.js';

/** How long a link holds, ms: judgement. One that is sent is used at once; one that is handed over within days. */
export const LINK_ms = {
  'first-steward': 24 * HOUR_ms,
  'choose-password': 72 * HOUR_ms,
  'sign-in': HOUR_ms / 4,
} as const;

/** Letters of a name to call somebody by. */
const SHOWN_characters = 100;

export interface SignInParts {
  readonly stores: AccessStores;
  readonly passwords: Passwords;
  readonly askers: Askers;
  readonly audit: AuditDesk;
  /** Wall clock, ms. */
  readonly now: () => number;
}

const WRONG: SignedIn = { kind: 'wrong' };

export class SignInDesk {
  readonly #parts: SignInParts;
  readonly #byName: Lockout;
  readonly #byAddress: Lockout;

  constructor(parts: SignInParts) {
    this.#parts = parts;
    this.#byName = new Lockout(NAME_LOCKOUT, parts.now);
    this.#byAddress = new Lockout(ADDRESS_LOCKOUT, parts.now);
  }

  /** Takes as long for a name that is none. @throws SandlarderError TOO_MANY_ATTEMPTS */
  async byPassword(name: string, password: string, from: AskedFrom): Promise<SignedIn> {
    const keys = this.#keysOf(name, from);
    const wait_s = this.#wait_s(keys);
    if (wait_s > 0) return { kind: 'wait', wait_s };
    this.#attempt(keys);
    const { stores, passwords, askers } = this.#parts;
    const account = open(stores.accounts.get(name));
    const isRight = await passwords.isRight(password, account?.password ?? null);
    if (!account || !isRight) {
      this.#refused(name, from, 'a wrong name or password');
      return WRONG;
    }
    this.#clear(keys);
    const kept = account.password ?? '';
    const text = passwords.isOutdated(kept) ? await passwords.hash(password) : kept;
    return stores.atOnce(() => {
      const now = open(stores.accounts.get(name));
      // Changed or closed while it was looked at.
      if (!now || now.password !== account.password) return WRONG;
      if (text !== kept) stores.accounts.put({ ...now, password: text });
      return this.#in(askers.begin(now, from), 'password', from);
    });
  }

  link(secret: string): LinkPurposeView | undefined {
    const link = this.#holding(secret);
    if (!link) return undefined;
    const account = link.account === null ? undefined : this.#parts.stores.accounts.get(link.account);
    return { purpose: link.purpose, name: account?.name ?? null, shown: account?.shown ?? null };
  }

  /** @throws SandlarderError BAD_REQUEST for what will not do, CONFLICT for a name that is taken; the link stays then */
  async byLink(secret: string, chosen: Chosen, from: AskedFrom): Promise<SignedIn> {
    const link = this.#holding(secret);
    if (!link) {
      this.#refused('a link', from, 'a link that is none, was used or is over');
      return WRONG;
    }
    const wanted = this.#wanted(link, chosen);
    const text =
      wanted.password === undefined ? undefined : await this.#parts.passwords.hash(wanted.password);
    const { stores, askers, now } = this.#parts;
    return stores.atOnce(() => {
      // Somebody was sooner, or a first steward came by another way.
      if (!this.#holding(secret) || !stores.links.use(hashOf(secret), now())) return WRONG;
      const account = { ...wanted.account, ...(text === undefined ? {} : { password: text }) };
      stores.accounts.put(account);
      if (text !== undefined) stores.sessions.revokeOthers(account.name, null, now());
      this.#byName.clear(account.name);
      return this.#in(askers.begin(account, from), `link: ${link.purpose}`, from);
    });
  }

  /** A link, of which those of before with the same purpose end. Within the caller's transaction. */
  makeLink(purpose: SignInLink['purpose'], account: string | null): { secret: string; endsAt: number } {
    const { stores, now } = this.#parts;
    const [secret, madeAt] = [newSecret(), now()];
    const endsAt = madeAt + LINK_ms[purpose];
    stores.links.endAll(purpose, account, madeAt);
    stores.links.add(hashOf(secret), { purpose, account, madeAt, endsAt });
    return { secret, endsAt };
  }

  /** @throws SandlarderError BAD_REQUEST for a password that will not do */
  async changePassword({ name }: Asker, before: string, next: string, from: AskedFrom): Promise<SignedIn> {
    const keys = this.#keysOf(name, from);
    const wait_s = this.#wait_s(keys);
    if (wait_s > 0) return { kind: 'wait', wait_s };
    requirePassword(next, name, 'next');
    this.#attempt(keys);
    const { stores, passwords, askers, now } = this.#parts;
    const account = open(stores.accounts.get(name));
    if (!account || !(await passwords.isRight(before, account.password))) return WRONG;
    this.#clear(keys);
    const text = await passwords.hash(next);
    return stores.atOnce(() => {
      const still = open(stores.accounts.get(name));
      if (!still || still.password !== account.password) return WRONG;
      stores.accounts.put({ ...still, password: text });
      stores.sessions.revokeOthers(name, null, now());
      return { kind: 'in', ...askers.begin(still, from) };
    });
  }

  #holding(secret: string): SignInLink | undefined {
    const { stores, now } = this.#parts;
    const link = stores.links.get(hashOf(secret), now());
    if (!link) return undefined;
    if (link.account === null) return stores.accounts.stewards().length === 0 ? link : undefined;
    return open(stores.accounts.get(link.account)) && link;
  }

  /** The account as it shall be. */
  #wanted(link: SignInLink, chosen: Chosen): { account: Account; password: string | undefined } {
    const { stores, now } = this.#parts;
    const isFirst = link.account === null;
    const name = link.account ?? chosen.name ?? '';
    const found = stores.accounts.get(name);
    if (isFirst) requireNew(name, found);
    const asks = link.purpose !== 'sign-in';
    if (asks) requirePassword(chosen.password ?? '', name, 'password');
    const account: Account = found ?? {
      ...{ name, shown: (chosen.shown?.trim() || name).slice(0, SHOWN_characters), role: 'steward' },
      ...{ beds: [], person: null, password: null, madeAt: now(), closedAt: null },
    };
    return { account, password: asks ? chosen.password : undefined };
  }

  #in(session: NewSession, how: string, { address }: AskedFrom): SignedIn {
    const { name } = session.asker;
    this.#parts.audit.note({ who: name, how, address, did: 'sign-in', what: name }, 'done');
    return { kind: 'in', ...session };
  }

  #refused(name: string, { address }: AskedFrom, why: string): void {
    this.#parts.audit.refused({ who: 'a stranger', how: 'none', address, did: 'sign-in', what: name }, why);
  }

  /** Whoever signed in from there before does not wait for what others tried with the name elsewhere. */
  #keysOf(name: string, { address }: AskedFrom) {
    const near = keyOfAddress(address);
    const isKnown = this.#parts.askers.knows(name, address);
    return { name: isKnown ? `${name} at ${near}` : name, address: near };
  }

  #wait_s({ name, address }: { name: string; address: string }): number {
    return Math.max(this.#byName.wait_s(name), this.#byAddress.wait_s(address));
  }

  #attempt({ name, address }: { name: string; address: string }): void {
    this.#byName.attempt(name);
    this.#byAddress.attempt(address);
  }

  #clear({ name, address }: { name: string; address: string }): void {
    this.#byName.clear(name);
    this.#byAddress.clear(address);
  }
}

const open = (account: Account | undefined): Account | undefined =>
  account?.closedAt === null ? account : undefined;

function requireNew(name: string, found: Account | undefined): void {
  if (!ACCOUNT_NAME.test(name))
    throw wrong('name', 'expected 1 to 32 small letters, digits and hyphens, such as amina');
  if (found) throw new SandlarderError('CONFLICT', `name: "${name}" is taken`);
}

function requirePassword(password: string, name: string, field: string): void {
  const problem = passwordProblem(password, name);
  if (problem !== undefined) throw wrong(field, problem);
}

const wrong = (field: string, message: string): SandlarderError =>
  new SandlarderError('BAD_REQUEST', `${field}: ${message}`, { misfits: [{ path: [field], message }] });
