/** What the HTTP edge needs to know who asks, put together. */
import { SandlarderError } from '../../core/errors.js';
import type { AccessPorts } from '../../http/index.js';
import type { Registry } from '../../registry/index.js';
import { AccountDesk, type AccountParts } from './accounts.js';
import { Askers } from './askers.js';
import { AuditDesk } from './audit-desk.js';
import { DeviceSecretDesk } from './device-secrets.js';
import { type PasswordCost, Passwords } from './passwords.js';
import { canSendLinks, type SentLinkParts, sendLink } from './sent-link.js';
import { SignInDesk } from './sign-in.js';

export interface AccessParts
  extends Pick<AccountParts, 'hasBed' | 'hasPerson'>,
    Pick<SentLinkParts, 'publicUrl' | 'hasWay' | 'onMessage'> {
  readonly registry: Registry;
  /** Whether nobody is asked as long as there is no steward: only this machine reaches the service. */
  readonly isOpenBefore: boolean;
  readonly passwordCost?: PasswordCost | undefined;
  /** Called where somebody may do otherwise than before, or is signed in no more. It must not throw. */
  readonly onChange?: () => void;
  /** Wall clock, ms. */
  readonly now: () => number;
}

/** Sessions that are listed. */
const MOST_LISTED = 500;

export interface Access {
  readonly ports: AccessPorts;
  readonly audit: AuditDesk;
  readonly devices: DeviceSecretDesk;
  /** A link for the first steward; undefined where there is one. It ends those of before. */
  firstLink(): string | undefined;
}

export function createAccess(parts: AccessParts): Access {
  const { registry, isOpenBefore, now, onChange = () => undefined } = parts;
  const { access: stores } = registry;
  const audit = new AuditDesk(stores, now);
  const askers = new Askers(stores, now);
  const passwords = new Passwords(parts.passwordCost);
  const desk = new SignInDesk({ stores, passwords, askers, audit, now });
  const accounts = new AccountDesk({ ...parts, stores });
  const devices = new DeviceSecretDesk(registry, now);
  const sending = { ...parts, desk, audit };
  const hasSteward = (): boolean => stores.accounts.stewards().length > 0;
  const told = <Result>(result: Result): Result => {
    onChange();
    return result;
  };
  const ports: AccessPorts = {
    standing: () => (hasSteward() ? 'sign-in' : isOpenBefore ? 'open' : 'first-steward'),
    sendsLinks: canSendLinks(sending),
    ofSession: (secret) => askers.ofSession(secret),
    ofToken: (secret) => askers.ofToken(secret),
    signIn: (name, password, from) => desk.byPassword(name, password, from),
    link: (secret) => desk.link(secret),
    useLink: async (secret, chosen, from) => told(await desk.byLink(secret, chosen, from)),
    sendLink: (name, from) => sendLink(sending, name, from),
    signOut: ({ session, name }) => {
      if (session !== null) told(stores.sessions.revoke(session, name, now()));
    },
    changePassword: async (asker, before, next, from) =>
      told(await desk.changePassword(asker, before, next, from)),
    sessions: (account) => stores.sessions.list(now(), account, MOST_LISTED),
    revokeSession: (id, account) => {
      if (!stores.sessions.revoke(id, account, now()))
        throw new SandlarderError('NOT_FOUND', `no session that holds has the id "${id}"`);
      onChange();
    },
    accounts: () => accounts.list(),
    putAccount: (name, body) => told(accounts.put(name, body)),
    linkFor: (name) => linkFor(registry, desk, name),
    tokens: () => accounts.tokens(),
    makeToken: (body, by) => accounts.makeToken(body, by),
    revokeToken: (id) => accounts.revokeToken(id),
    deviceSecrets: (site) => devices.list(site),
    makeDeviceSecret: (device) => told(devices.make(device)),
    revokeDeviceSecret: (device) => told(devices.revoke(device)),
    audit: (before, limit) => audit.list(before, limit),
    began: (deed) => audit.began(deed),
    ended: (began, deed, result) => audit.ended(began, deed, result),
    refused: (deed, result) => audit.refused(deed, result),
    bedOfAlarm: (id) => registry.alarms.get(id)?.bed,
    bedOfInspection: (id) => registry.inspections.get(id)?.bed,
  };
  return {
    ...{ ports, audit, devices },
    firstLink: () =>
      stores.atOnce(() => (hasSteward() ? undefined : desk.makeLink('first-steward', null).secret)),
  };
}

/** @throws SandlarderError NOT_FOUND */
function linkFor({ access: stores }: Registry, desk: SignInDesk, name: string) {
  const account = stores.accounts.get(name);
  if (!account || account.closedAt !== null)
    throw new SandlarderError('NOT_FOUND', `nobody who may sign in has the name "${name}"`);
  return stores.atOnce(() => desk.makeLink('choose-password', name));
}
