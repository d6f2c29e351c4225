/** Time zones to choose from. */
import { say } from '../words/say.js';

interface Option {
  readonly value: string;
  readonly label: string;
  readonly group: string;
}

/** Those that the browser knows; `supportedValuesOf` is younger than some phones. */
const known = (): readonly string[] =>
  (Intl as { supportedValuesOf?: (key: string) => string[] }).supportedValuesOf?.('timeZone') ?? [];

const continentOf = (zone: string): string => zone.split('/')[0] ?? '';

/** The clock of a zone, to the minute: the same where two zones differ by nothing. @param at ms */
const clockIn = (zone: string, at: number): string =>
  new Intl.DateTimeFormat('en', { timeZone: zone, dateStyle: 'short', timeStyle: 'short' }).format(at);

/**
 * The one in force, that of this device, and those of the same continent that show the same time.
 *
 * @param zones at least the one in force and that of the device
 * @param at ms
 */
export function likelyZones(
  zones: readonly string[],
  inForce: string,
  device: string,
  at: number,
): readonly string[] {
  const clock = clockIn(inForce, at);
  const near = zones.filter(
    (zone) => continentOf(zone) === continentOf(inForce) && clockIn(zone, at) === clock,
  );
  return [...new Set([inForce, device, ...near])];
}

/** The likely ones first, then the others, each by name. */
export function zoneOptions(inForce: string): Option[] {
  const device = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const zones = [...new Set([inForce, device, ...known()])].sort();
  const likely = likelyZones(zones, inForce, device, Date.now());
  const option = (group: string) => (zone: string) => ({
    ...{ value: zone, label: zone.replaceAll('_', ' '), group },
  });
  return [
    ...likely.map(option(say('settings.zonesLikely'))),
    ...zones.filter((zone) => !likely.includes(zone)).map(option(say('settings.zonesOther'))),
  ];
}
