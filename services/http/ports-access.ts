/** What the HTTP edge needs to know who asks, and to note what they changed. */
import type { Device, DeviceKind } from '../core/model/device.js';
import type { Role, Standing } from '../core/model/roles.js';

/** `open`: nobody is asked; `first-steward`: only the link for the first steward lets anybody in; else people sign in. */
export const ACCESS_STANDINGS = ['open', 'first-steward', 'sign-in'] as const;
export type AccessStanding = (typeof ACCESS_STANDINGS)[number];

/** Whoever asks, as far as they showed it. */
export interface Asker extends Standing {
  /** `anyone` of an open service; `shared`: the user and password of the environment. */
  readonly kind: 'anyone' | 'shared' | 'person' | 'machine';
  /** A name to sign in by, or of a token. */
  readonly name: string;
  /** As others call them. */
  readonly shown: string;
  /** Id of their session; null without one. */
  readonly session: string | null;
}

/** From where something was asked. */
export interface AskedFrom {
  readonly address: string;
  /** What the browser says it is. */
  readonly device: string;
}

export interface NewSession {
  /** Shown once, in the cookie. */
  readonly secret: string;
  /** Wall clock, ms. */
  readonly endsAt: number;
  readonly asker: Asker;
}

export type SignedIn =
  | ({ readonly kind: 'in' } & NewSession)
  /** Neither what was wrong nor whether there is such a name is said. */
  | { readonly kind: 'wrong' }
  | { readonly kind: 'wait'; readonly wait_s: number };

/** What a link that holds is for. */
export interface LinkPurposeView {
  readonly purpose: 'first-steward' | 'choose-password' | 'sign-in';
  /** Whose; null for the first steward. */
  readonly name: string | null;
  readonly shown: string | null;
}

export interface Chosen {
  readonly name?: string | undefined;
  readonly shown?: string | undefined;
  readonly password?: string | undefined;
}

/** Times are of the wall clock, ms. */
export interface SessionView {
  readonly id: string;
  readonly account: string;
  readonly madeAt: number;
  readonly usedAt: number;
  readonly endsAt: number;
  readonly address: string;
  readonly device: string;
}

export interface AccountView {
  readonly name: string;
  readonly shown: string;
  readonly role: Role;
  readonly beds: readonly string[];
  readonly person: { readonly site: string; readonly id: string } | null;
  readonly hasPassword: boolean;
  readonly madeAt: number;
  readonly closedAt: number | null;
}

export interface AccountBody {
  readonly shown: string;
  readonly role: Role;
  readonly beds: readonly string[];
  readonly person: { readonly site: string; readonly id: string } | null;
  readonly closed: boolean;
}

export interface TokenView {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  readonly beds: readonly string[];
  readonly madeBy: string;
  readonly madeAt: number;
  readonly endsAt: number;
  readonly usedAt: number | null;
  readonly revokedAt: number | null;
}

export interface TokenBody {
  readonly name: string;
  readonly role: Role;
  readonly beds: readonly string[];
  readonly days: number;
}

/** A device with a secret of its own at the broker. */
export interface DeviceSecretView {
  /** User name at the broker. */
  readonly user: string;
  readonly kind: DeviceKind;
  readonly id: string;
  /** Wall clock, ms. */
  readonly madeAt: number;
}

export interface MadeSecretView extends DeviceSecretView {
  /** Shown this once. */
  readonly secret: string;
  /** Whether it takes the place of another one, which holds no more. */
  readonly isRenewal: boolean;
  /** Whether the site description has such a probe; true of a lamp, which none has. */
  readonly isDescribed: boolean;
}

export interface AuditView {
  readonly seq: number;
  readonly at: number;
  readonly who: string;
  readonly how: string;
  readonly address: string;
  readonly did: string;
  readonly what: string;
  readonly result: string | null;
}

/** A change that begins. */
export interface DeedView {
  readonly who: string;
  readonly how: string;
  readonly address: string;
  readonly did: string;
  readonly what: string;
}

export interface AccessPorts {
  standing(): AccessStanding;
  /** Whether a link can be sent to whoever asks for one by name. */
  readonly sendsLinks: boolean;
  ofSession(secret: string): Asker | undefined;
  ofToken(secret: string): Asker | undefined;
  signIn(name: string, password: string, from: AskedFrom): Promise<SignedIn>;
  /** Undefined for a link that is none, was used, or is over. */
  link(secret: string): LinkPurposeView | undefined;
  /** Throws BAD_REQUEST for a name or password that will not do, CONFLICT for a name that is taken. */
  useLink(secret: string, chosen: Chosen, from: AskedFrom): Promise<SignedIn>;
  /** Says nothing of whether anything was sent. */
  sendLink(name: string, from: AskedFrom): void;
  signOut(asker: Asker): void;
  /** Throws BAD_REQUEST for a password that will not do. Every other session of theirs ends. */
  changePassword(asker: Asker, before: string, next: string, from: AskedFrom): Promise<SignedIn>;
  /** Of one account, or of all. */
  sessions(account: string | null): readonly SessionView[];
  /** @param account whose it must be; null for anybody's. Throws NOT_FOUND. */
  revokeSession(id: string, account: string | null): void;
  accounts(): readonly AccountView[];
  /** Throws BAD_REQUEST, and CONFLICT where no steward would be left. */
  putAccount(name: string, body: AccountBody): AccountView;
  /** A link by which somebody chooses a password. Throws NOT_FOUND. */
  linkFor(name: string): { readonly secret: string; readonly endsAt: number };
  tokens(): readonly TokenView[];
  /** The secret is shown this once. Throws LIMIT_EXCEEDED. */
  makeToken(body: TokenBody, by: string): { readonly secret: string; readonly token: TokenView };
  /** Throws NOT_FOUND. */
  revokeToken(id: string): void;
  /** Of a site, by user name. Throws NOT_FOUND. */
  deviceSecrets(site: string): readonly DeviceSecretView[];
  /** Throws BAD_REQUEST, NOT_FOUND for a site that is none, LIMIT_EXCEEDED. */
  makeDeviceSecret(device: Device): MadeSecretView;
  /** Its connections end within seconds. Throws NOT_FOUND. */
  revokeDeviceSecret(device: Device): void;
  /** Newest first. */
  audit(before: number, limit: number): readonly AuditView[];
  /** Notes that a change begins. @returns what `ended` is told */
  began(deed: DeedView): number;
  ended(began: number, deed: DeedView, result: string): void;
  /** Notes what was refused, so many an hour at the most. */
  refused(deed: DeedView, result: string): void;
  /** Undefined for one that is none. */
  bedOfAlarm(id: string): string | undefined;
  bedOfInspection(id: string): string | undefined;
}
