/** Who may do what: the one table that the service decides by and the page shows. */

/** What somebody can ask the service for. */
export const ACTIONS = [
  'look',
  'write-down',
  'answer-alarms',
  'calibrate',
  'describe',
  'people',
  'drill',
  'compare',
  'measure',
  'hand-over',
  'own',
  'administer',
  'audit',
] as const;
export type Action = (typeof ACTIONS)[number];

/** Roles of people who sign in. */
export const PERSON_ROLES = ['keeper', 'technician', 'researcher', 'steward'] as const;

/** Roles of machines alone: what hands short messages over, and what gathers figures of the service. */
const MACHINE_ROLES = ['gateway', 'monitor'] as const;

export const ROLES = [...PERSON_ROLES, ...MACHINE_ROLES] as const;
export type Role = (typeof ROLES)[number];

const MAY: Readonly<Record<Role, readonly Action[]>> = {
  keeper: ['look', 'write-down', 'answer-alarms', 'own'],
  researcher: ['look', 'compare', 'own'],
  technician: [
    ...(['look', 'write-down', 'answer-alarms', 'calibrate', 'describe', 'people', 'drill'] as const),
    ...(['measure', 'own'] as const),
  ],
  steward: ACTIONS.filter((action) => action !== 'hand-over'),
  gateway: ['hand-over'],
  monitor: ['measure'],
};

/** Roles that do these only at beds that are named with them. */
const AT_NAMED_BEDS: ReadonlySet<Role> = new Set(['keeper']);
const OF_A_BED: ReadonlySet<Action> = new Set(['write-down', 'answer-alarms']);

/** Somebody as far as it decides what they may do. */
export interface Standing {
  readonly role: Role;
  /** Ids of beds, of those whose role is for named beds. */
  readonly beds: readonly string[];
}

export const actionsOf = (role: Role): readonly Action[] => MAY[role];

/** Whether a role does an action only at the beds that are named with it. */
export const isAtNamedBeds = (role: Role, action: Action): boolean =>
  AT_NAMED_BEDS.has(role) && OF_A_BED.has(action);

/**
 * Whether somebody may do it.
 *
 * @param bed at which; undefined asks whether they may anywhere
 */
export function may({ role, beds }: Standing, action: Action, bed?: string): boolean {
  if (!MAY[role].includes(action)) return false;
  if (!isAtNamedBeds(role, action)) return true;
  return bed === undefined ? beds.length > 0 : beds.includes(bed);
}
