/**
 * From the humidity of the pore air at a probe, hour by hour, to whether it asks for a sand sample or for
 * unpacking. Humidity tells dry sand from wet sand and nothing between: it cannot grade dampness.
 */
import type { Thresholds } from '../model/threshold.js';
import { toKept } from './hourly-mean.js';
import { PARAMETERS } from './parameters.js';
import { AT_REST, nextHour } from './persistence.js';
import type { ProbeState } from './state.js';

/** Takes a probe's mean humidity of the next hour, %RH; undefined where there is none. */
export function takeHumidity(
  { damp }: ProbeState,
  humidity_RH: number | undefined,
  thresholds: Thresholds,
): void {
  const against = (threshold_RH: number) =>
    humidity_RH === undefined
      ? undefined
      : {
          above: humidity_RH >= threshold_RH,
          below: humidity_RH < threshold_RH - PARAMETERS.dampClear_RH,
        };
  const { damp_check_RH, damp_check_h, damp_unpack_RH, damp_unpack_h } = thresholds;
  if (humidity_RH !== undefined) damp.humidity_RH = toKept(humidity_RH);
  damp.unpack = nextHour(damp.unpack, against(damp_unpack_RH), damp_unpack_h);
  damp.check = damp.unpack.open ? AT_REST : nextHour(damp.check, against(damp_check_RH), damp_check_h);
}
