/** What the page reads of who asks. */
import type { Action, Role } from '../../../core/model/roles.js';

export interface Me {
  readonly access: 'open' | 'first-steward' | 'sign-in';
  readonly isIn: boolean;
  readonly name: string | null;
  readonly shown: string | null;
  readonly role: Role | null;
  readonly beds: readonly string[];
  readonly may: readonly Action[];
  readonly sendsLinks: boolean;
  /** Where what is shown is a made-up season: its first and last moment, RFC 3339, and the clock of its site. */
  readonly madeUp?: { readonly from: string; readonly to: string; readonly timezone: string };
}

export interface Account {
  readonly name: string;
  readonly shown: string;
  readonly role: Role;
  readonly beds: readonly string[];
  readonly person: { readonly site: string; readonly id: string } | null;
  readonly closedAt: string | null;
}

export interface Session {
  readonly id: string;
  readonly account: string;
  /** Whether it is the one that asks. */
  readonly isThis: boolean;
  readonly usedAt: string;
  readonly address: string;
}

export interface MachineToken {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  readonly revokedAt: string | null;
}

export interface AuditEntry {
  readonly seq: number;
  readonly at: string;
  readonly who: string;
  readonly address: string;
  readonly did: string;
  readonly what: string;
  readonly result: string | null;
}

/** Of a probe or a lamp, at the broker. */
export interface DeviceSecret {
  /** By which it connects. */
  readonly user: string;
  readonly kind: 'probe' | 'lamp';
  readonly id: string;
  readonly madeAt: string;
}

export interface MadeSecret extends DeviceSecret {
  /** Told this once. */
  readonly secret: string;
  readonly isRenewal: boolean;
  readonly isDescribed: boolean;
}
