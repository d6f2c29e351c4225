/** A sound site description as JSON, to be spoilt in tests. Invented. */

export const SITE_JSON = {
  version: 1,
  site: { id: 'ridge-station', name: 'Ridge station', timezone: 'Africa/Lusaka' },
  beds: [
    {
      id: 'pit-a',
      name: 'Pit A',
      kind: 'stepped-pit',
      steps: [
        { length: 150, width: 100, height: 25 },
        { length: 150, width: 60, height: 25 },
      ],
      filled: '2026-05-04T08:00:00Z',
      roots: { count: 400, mass_kg: 110 },
      keeper: 'keeper-1',
    },
  ],
  probes: [
    {
      id: 'p01',
      model: 'digital RH/T',
      placements: [{ bed: 'pit-a', x: 75, y: 40, depth: 30, from: '2026-05-04T08:00:00Z' }],
    },
    { id: 'p09', placements: [{ ambient: true, from: '2026-05-04T08:00:00Z' }] },
  ],
  people: [
    {
      id: 'keeper-1',
      name: 'Keeper of pit A',
      language: 'en',
      reach: [{ via: 'sms', to: '+260970000000' }],
    },
  ],
} as const;

/** A copy with the value at a path replaced; `undefined` takes the key out. */
export function spoilt(path: readonly (string | number)[], value: unknown): unknown {
  const copy: unknown = structuredClone(SITE_JSON);
  let at = copy as Record<string | number, unknown>;
  for (const key of path.slice(0, -1)) at = at[key] as Record<string | number, unknown>;
  const last = path.at(-1) ?? '';
  if (value === undefined) delete at[last];
  else at[last] = value;
  return copy;
}
