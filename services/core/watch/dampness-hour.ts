/** What the watch for damp is given of an hour. */
import type { DampnessHour, DampnessProbe } from './dampness/index.js';
import type { JudgedHour } from './hour-quality.js';
import type { PlacedProbe } from './placements.js';
import type { BedHour, WatchedBed } from './watch.js';

function probeOf(
  { id, placement: { x, y, depth } }: PlacedProbe,
  { probes }: BedHour,
  quality: JudgedHour,
): DampnessProbe {
  const own = quality.probes.get(id);
  const uncertainty = own?.humidityUncertainty_RH;
  return {
    ...{ id, x, y, depth, hour: own ?? {}, samples: quality.usable(id, probes.get(id) ?? []) },
    ...(own && { wetOrBroken: own.wetOrBroken }),
    ...(uncertainty !== undefined && { humidityUncertainty_RH: uncertainty }),
  };
}

export function dampnessHour(
  { bed, thresholds }: WatchedBed,
  placed: readonly PlacedProbe[],
  hour: BedHour,
  quality: JudgedHour,
  opened: boolean,
  repacked: boolean,
): DampnessHour {
  const { shade } = quality;
  return {
    ...{ hour: hour.hour, bed, thresholds, probes: placed.map((probe) => probeOf(probe, hour, quality)) },
    ...((shade.temperature || shade.humidity) && { shade }),
    ...(opened && { disturbed: repacked ? ('repacked' as const) : ('opened' as const) }),
  };
}
