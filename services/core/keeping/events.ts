/** What can happen to a bed that is worth a mark along its series. */
export const EVENT_KINDS = [
  'filling',
  'inspection',
  'alarm-raised',
  'alarm-moved',
  'alarm-acknowledged',
  'alarm-cleared',
  'alarm-withdrawn',
  'calibration',
  'probe-placed',
  'probe-moved',
  'probe-taken-out',
  'stock-out',
  'readiness-override',
] as const;

/**
 * - `alarm-moved`: people were to dig elsewhere
 * - `alarm-withdrawn`: readings that came later showed that it never was, and nothing else took its place
 * - `readiness-override`: somebody had the bed filled though it was not found ready
 */
export type EventKind = (typeof EVENT_KINDS)[number];
