/** One bed. */
export const bed = {
  standsSince: 'since {since}',
  box: 'a box',
  steppedPit: 'a stepped pit',
} as const;
