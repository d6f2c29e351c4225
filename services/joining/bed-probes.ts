/** Probes of a bed as they stand, and those that stood in it. */
import { hourOf } from '../core/model/time.js';
import type { FormerProbeView, ProbeView } from '../http/index.js';
import { toMillionth } from './calibrations.js';
import { type KnownBed, type KnownProbe, type Stay, stayAt, staysInBed } from './directory.js';
import type { Station } from './station.js';

/** Probes that stand in the bed now, in order of id. @param now wall clock, ms */
export const probesThere = (station: Station, known: KnownBed, now: number): ProbeView[] =>
  known.probes.flatMap((probe) => probeView(station, known, probe, now));

/**
 * Probes that have stood in the bed since it was filled and were taken out or elsewhere by now, each where it stood last.
 *
 * @param now wall clock, ms
 */
export function probesGone({ bed, probes }: KnownBed, now: number): FormerProbeView[] {
  return probes.flatMap((probe) => {
    const stay = staysInBed(probe, bed.id).findLast(({ from }) => from <= now);
    if (!stay?.placement || !(stay.to <= now) || !(stay.to > (bed.filled ?? 0))) return [];
    if (standing(probe, now)?.placement?.bed === bed.id) return [];
    const { x, y, depth } = stay.placement;
    return [{ id: probe.probe.id, x, y, depth, until: stay.to }];
  });
}

/**
 * Where a probe stands; undefined where it was taken out by now. One that is to stand first at a time to come is there
 * already: a bed is described before its first reading.
 */
function standing(probe: KnownProbe, now: number): Stay | undefined {
  const [first] = probe.stays;
  return first && now < first.from ? first : stayAt(probe, now);
}

function probeView(station: Station, known: KnownBed, probe: KnownProbe, now: number): ProbeView[] {
  const stay = standing(probe, now);
  if (stay?.placement?.bed !== known.bed.id) return [];
  const { x, y, depth } = stay.placement;
  const latest = station.archive.readings.latest(probe.key);
  const newest = station.archive.judged.latest(probe.key);
  // One of before is of another place, or of another filling.
  const isOfNow = newest && newest.hour >= Math.max(hourOf(stay.from), known.bed.filled ?? 0);
  const judged = isOfNow ? newest : undefined;
  return [
    {
      ...{ id: probe.probe.id, model: probe.probe.model ?? null, x, y, depth },
      online: station.archive.status.get(probe.key),
      latest:
        latest && latest.time >= stay.from
          ? {
              at: latest.time,
              ...latestValues(station, probe, latest),
              ...(latest.battery !== null && { battery_V: latest.battery }),
              ...(latest.charge !== null && { charge_EL: latest.charge }),
            }
          : null,
      expected_C: judged?.expected ?? null,
      band_C: judged?.band ?? null,
      excess_C: judged?.excess ?? null,
    },
  ];
}

/** Corrected, with their uncertainty where a calibration is in force, and why they are to be doubted. */
function latestValues(
  { calibrations }: Station,
  probe: KnownProbe,
  { time, temperature, humidity }: { time: number; temperature: number | null; humidity: number | null },
): Partial<NonNullable<ProbeView['latest']>> {
  const warmth = temperature === null ? null : calibrations.correct(probe, 'temperature', time, temperature);
  const moisture =
    humidity === null ? null : calibrations.correct(probe, 'humidity', time, humidity, warmth?.value);
  return {
    ...(warmth && { temperature_C: toMillionth(warmth.value) }),
    ...(warmth?.uncertainty != null && { temperatureUncertainty_C: toMillionth(warmth.uncertainty) }),
    ...(warmth?.doubt && { temperatureDoubt: warmth.doubt }),
    ...(moisture && { humidity_RH: toMillionth(moisture.value) }),
    ...(moisture?.uncertainty != null && { humidityUncertainty_RH: toMillionth(moisture.uncertainty) }),
    ...(moisture?.doubt && { humidityDoubt: moisture.doubt }),
  };
}
