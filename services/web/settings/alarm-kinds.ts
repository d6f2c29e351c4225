/** Kinds of alarms that somebody can be told of, in the order in which they are asked about. */
export const ALARM_KINDS = [
  'heating',
  'wetting',
  'damp',
  'condensation',
  'sprouting',
  'weevil',
  'inspection-due',
  'probe-fault',
  'probe-silent',
] as const;
