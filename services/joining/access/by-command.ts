/** What commands change in a data directory, in the audit trail: by whom, as the operating system names them. */
import { userInfo } from 'node:os';
import type { DeedView } from '../../http/index.js';
import type { Registry } from '../../registry/index.js';
import { AuditDesk } from './audit-desk.js';

/** A deed of whoever runs this command. */
export const deedOfCommand = (did: string, what: string): DeedView => ({
  ...{ who: operatingSystemUser(), how: 'data directory', address: '', did, what },
});

export interface BegunDeed {
  /** @param result in a few words */
  done(result: string): void;
  notDone(error: unknown): void;
}

/**
 * Notes that a change begins: call it before, so that nothing is changed that is not in the trail.
 *
 * @throws SandlarderError where it cannot be noted: the change must not be made then
 */
export function beginDeed(registry: Pick<Registry, 'access'>, now: () => number, deed: DeedView): BegunDeed {
  const audit = new AuditDesk(registry.access, now);
  const began = audit.began(deed);
  return {
    done: (result) => audit.ended(began, deed, `done: ${result}`),
    notDone: (error) => {
      try {
        audit.ended(began, deed, `not done: ${(error as Error).message}`);
      } catch {
        // The row that began it stands without an end; whoever called tells why it was not done.
      }
    },
  };
}

/** A container may run as a number that has no name. */
function operatingSystemUser(): string {
  try {
    return userInfo().username;
  } catch {
    return `user ${process.getuid?.() ?? 'unknown'}`;
  }
}
