/** The reference instrument on the command line. */
export interface ReferenceFlags {
  readonly reference: string;
  readonly serial?: string;
  readonly calibratedBy?: string;
  readonly certificate?: string;
  readonly calibratedOn?: string;
  readonly dueOn?: string;
}

/** As the service takes it; what was not given is left out. */
export function referenceOf(flags: ReferenceFlags): Record<string, string> {
  const { reference: name, serial, calibratedBy, certificate, calibratedOn, dueOn } = flags;
  return Object.fromEntries(
    Object.entries({ name, serial, calibratedBy, certificate, calibratedOn, dueOn }).flatMap(
      ([key, value]) => (value === undefined ? [] : [[key, value]]),
    ),
  );
}
