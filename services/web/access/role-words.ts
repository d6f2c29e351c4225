/** Roles and what they may do, as people read them. */
import type { Role } from '../../core/model/roles.js';
import { say } from '../words/say.js';

const WORDS = {
  keeper: 'access.roleKeeper',
  technician: 'access.roleTechnician',
  researcher: 'access.roleResearcher',
  steward: 'access.roleSteward',
  gateway: 'access.roleGateway',
  monitor: 'access.roleMonitor',
} as const;

export const roleName = (role: Role): string => say(WORDS[role]);

export const roleOptions = (roles: readonly Role[]) =>
  roles.map((role) => ({ value: role, label: roleName(role) }));
