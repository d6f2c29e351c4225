/** Time zones to choose from. */

interface Option {
  readonly value: string;
  readonly label: string;
}

/** Those that the browser knows, and the one that is in force; `supportedValuesOf` is younger than some phones. */
export function zoneOptions(inForce: string): Option[] {
  const known =
    (Intl as { supportedValuesOf?: (key: string) => string[] }).supportedValuesOf?.('timeZone') ?? [];
  return [...new Set([inForce, ...known])]
    .sort()
    .map((zone) => ({ value: zone, label: zone.replaceAll('_', ' ') }));
}
