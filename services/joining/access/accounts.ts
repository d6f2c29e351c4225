/** Who may sign in, and what machines show instead: what a steward looks after. */
import { SandlarderError } from '../../core/errors.js';
import { ACCOUNT_NAME } from '../../core/model/password.js';
import { PERSON_ROLES, type Role } from '../../core/model/roles.js';
import { DAY_ms } from '../../core/model/time.js';
import type { AccountBody, AccountView, TokenBody, TokenView } from '../../http/index.js';
import type { AccessStores, Account } from '../../registry/index.js';
import { hashOf, newId, newSecret } from './secrets.js';

/** A station's people, and a community's. */
const MOST_ACCOUNTS = 1_000;
const MOST_TOKENS = 200;

/** Tokens that are listed, those that ended too. */
const LISTED_TOKENS = 500;

/** Tells what it is where it is found in a file. */
const TOKEN_PREFIX = 'sandlarder_';

export interface AccountParts {
  readonly stores: AccessStores;
  /** Whether a bed is described. */
  readonly hasBed: (id: string) => boolean;
  readonly hasPerson: (site: string, id: string) => boolean;
  /** Wall clock, ms. */
  readonly now: () => number;
}

export class AccountDesk {
  readonly #parts: AccountParts;

  constructor(parts: AccountParts) {
    this.#parts = parts;
  }

  list(): AccountView[] {
    return this.#parts.stores.accounts.list().map(viewOf);
  }

  /** @throws SandlarderError BAD_REQUEST, CONFLICT where no steward would be left, LIMIT_EXCEEDED */
  put(name: string, body: AccountBody): AccountView {
    const { stores, now } = this.#parts;
    this.#require(name, body);
    return stores.atOnce(() => {
      const before = stores.accounts.get(name);
      if (!before && !(stores.accounts.count() < MOST_ACCOUNTS))
        throw new SandlarderError(
          'LIMIT_EXCEEDED',
          `accounts: expected at most ${MOST_ACCOUNTS}, got one more`,
        );
      this.#requireSteward(name, body);
      const { shown, role, beds, person, closed } = body;
      const account: Account = {
        ...{ name, shown, role, beds, person, password: before?.password ?? null },
        madeAt: before?.madeAt ?? now(),
        closedAt: closed ? (before?.closedAt ?? now()) : null,
      };
      stores.accounts.put(account);
      if (closed) stores.sessions.revokeOthers(name, null, now());
      return viewOf(account);
    });
  }

  tokens(): TokenView[] {
    return this.#parts.stores.tokens.list(LISTED_TOKENS);
  }

  /** @throws SandlarderError BAD_REQUEST, LIMIT_EXCEEDED */
  makeToken({ name, role, beds, days }: TokenBody, madeBy: string): { secret: string; token: TokenView } {
    const { stores, now } = this.#parts;
    this.#requireBeds(role, beds);
    const madeAt = now();
    if (!(stores.tokens.count(madeAt) < MOST_TOKENS))
      throw new SandlarderError('LIMIT_EXCEEDED', `tokens: expected at most ${MOST_TOKENS}, got one more`);
    const secret = `${TOKEN_PREFIX}${newSecret()}`;
    const token = { id: newId(), name, role, beds, madeBy, madeAt, endsAt: madeAt + days * DAY_ms };
    stores.tokens.add(hashOf(secret), token);
    return { secret, token: { ...token, usedAt: null, revokedAt: null } };
  }

  /** @throws SandlarderError NOT_FOUND */
  revokeToken(id: string): void {
    if (!this.#parts.stores.tokens.revoke(id, this.#parts.now()))
      throw new SandlarderError('NOT_FOUND', `no token that holds has the id "${id}"`);
  }

  #require(name: string, { role, beds, person }: AccountBody): void {
    if (!ACCOUNT_NAME.test(name))
      throw wrong('name', 'expected 1 to 32 small letters, digits and hyphens, such as amina');
    if (!(PERSON_ROLES as readonly Role[]).includes(role))
      throw wrong('role', `expected one of ${PERSON_ROLES.join(', ')}, got "${role}": that is for machines`);
    this.#requireBeds(role, beds);
    if (person && !this.#parts.hasPerson(person.site, person.id))
      throw wrong('person', `expected a person of a site, got "${person.id}" of "${person.site}"`);
  }

  #requireBeds(role: Role, beds: readonly string[]): void {
    const unknown = beds.find((bed) => !this.#parts.hasBed(bed));
    if (unknown !== undefined) throw wrong('beds', `expected ids of beds, got "${unknown}"`);
    if (role === 'keeper' && beds.length === 0)
      throw wrong('beds', 'expected the beds that are kept, got none');
    if (role !== 'keeper' && beds.length > 0) throw wrong('beds', `expected none for the role "${role}"`);
  }

  /** Nobody could let anybody in any more. */
  #requireSteward(name: string, { role, closed }: AccountBody): void {
    if (role === 'steward' && !closed) return;
    const stewards = this.#parts.stores.accounts.stewards();
    if (stewards.length === 1 && stewards[0] === name)
      throw new SandlarderError(
        'CONFLICT',
        `"${name}" is the only steward who can sign in: make another steward first`,
      );
  }
}

export const viewOf = ({ password, ...account }: Account): AccountView => ({
  ...account,
  hasPassword: password !== null,
});

const wrong = (field: string, message: string): SandlarderError =>
  new SandlarderError('BAD_REQUEST', `${field}: ${message}`, { misfits: [{ path: [field], message }] });
