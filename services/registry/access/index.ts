/** Who may sign in and what was changed by whom, at rest. */
import type { Database } from '../database.js';
import { AccountStore } from './account-store.js';
import { AuditStore } from './audit-store.js';
import { SignInLinkStore } from './link-store.js';
import { DeviceSecretStore } from './secret-store.js';
import { SessionStore } from './session-store.js';
import { TokenStore } from './token-store.js';

export type { Account } from './account-store.js';
export { type AuditEntry, auditProblems, type Deed, noteIn } from './audit-store.js';
export type { LinkPurpose, SignInLink } from './link-store.js';
export type { DeviceSecret } from './secret-store.js';
export type { Session } from './session-store.js';
export type { MachineToken } from './token-store.js';

export function createAccessStores(database: Database) {
  return {
    accounts: new AccountStore(database),
    sessions: new SessionStore(database),
    tokens: new TokenStore(database),
    links: new SignInLinkStore(database),
    secrets: new DeviceSecretStore(database),
    audit: new AuditStore(database),
    /** Runs the work in one transaction. */
    atOnce: <Result>(work: () => Result): Result => database.transaction(work).immediate(),
  };
}

export type AccessStores = ReturnType<typeof createAccessStores>;
