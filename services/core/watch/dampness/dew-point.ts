/**
 * Condensation: air whose dew point lies above the temperature of the coldest sand leaves water there. The air
 * outside comes in by day and night; the moist air of a warm place in the bed spreads through the sand more slowly.
 */
import { dewPoint_C } from '../../physics/index.js';
import type { ProbeHour } from '../watch.js';
import { type HoldRule, nextHold } from './hold.js';
import { meanOfHour } from './hours.js';
import { DAMPNESS } from './parameters.js';
import type { DampnessState, DewState } from './state.js';
import type { DampnessHour, DampnessProbe } from './types.js';

interface Dew {
  readonly source: string;
  readonly dewPoint_C: number;
}

interface Cold {
  readonly probe: DampnessProbe;
  readonly sand_C: number;
}

/** A sensor above 100 %RH is off by that and means saturation; one above 130 means nothing. */
const SATURATED_RH = 100;
const HUMIDITY_MOST_RH = 130;

/**
 * Dew point of the air that a probe measured in an hour.
 *
 * @param less_RH what the humidity may be too high by, %RH
 * @returns °C; undefined where there is no measurement of air that has one
 */
export function dewPointOfHour({ temperature, humidity }: ProbeHour, less_RH: number): number | undefined {
  const air_C = meanOfHour(temperature);
  const air_RH = meanOfHour(humidity);
  if (air_C === undefined || air_RH === undefined) return undefined;
  const sure_RH = air_RH - less_RH;
  if (!(sure_RH >= 1 && sure_RH <= HUMIDITY_MOST_RH && air_C >= -20 && air_C <= 60)) return undefined;
  return dewPoint_C(air_C, Math.min(sure_RH, SATURATED_RH) / 100);
}

const coldestOf = (probes: readonly DampnessProbe[]): Cold | undefined =>
  probes
    .flatMap((probe): Cold[] => {
      const sand_C = meanOfHour(probe.hour.temperature);
      return sand_C === undefined ? [] : [{ probe, sand_C }];
    })
    .sort((one, other) => one.sand_C - other.sand_C)[0];

/** Air and the sand that it may condense in. */
interface Meeting {
  readonly dew: Dew;
  readonly cold: Cold;
  /** True where a probe in that sand says that it is far from wet. */
  readonly isDryThere: boolean;
}

/**
 * Compares dew points with the coldest sand of the hour.
 *
 * @param isTrusted whether a probe's humidity may be believed
 * @param end end of the hour, ms
 */
export function stepDewPoints(
  state: DampnessState,
  { probes, shade, thresholds: { condensation_margin_C, condensation_h } }: DampnessHour,
  isTrusted: (id: string) => boolean,
  end: number,
): void {
  const cold = coldestOf(probes);
  const outside_C = shade && dewPointOfHour(shade, 0);
  const outside =
    cold && outside_C !== undefined
      ? { dew: { source: 'outside air', dewPoint_C: outside_C }, cold, isDryThere: false }
      : undefined;
  const inside = cold && insideMeeting(probes, cold, isTrusted);
  const rule = (hold_h: number): HoldRule => ({ hold_h, clear_h: DAMPNESS.clear_h, dip_h: 0 });
  take(state.outsideAir, outside, condensation_margin_C, rule(condensation_h), end);
  take(state.insideAir, inside, condensation_margin_C, rule(DAMPNESS.inside_h), end);
}

/** The air of the highest dew point at the other probes, and the coldest sand. */
function insideMeeting(
  probes: readonly DampnessProbe[],
  cold: Cold,
  isTrusted: (id: string) => boolean,
): Meeting | undefined {
  const dews = probes.flatMap((probe): Dew[] => {
    const error_RH = probe.humidityUncertainty_RH ?? DAMPNESS.humidityError_RH;
    const dew_C =
      probe !== cold.probe && isTrusted(probe.id) ? dewPointOfHour(probe.hour, error_RH) : undefined;
    return dew_C === undefined ? [] : [{ source: probe.id, dewPoint_C: dew_C }];
  });
  const [dew] = dews.sort((one, other) => other.dewPoint_C - one.dewPoint_C);
  const there_RH = isTrusted(cold.probe.id) ? meanOfHour(cold.probe.hour.humidity) : undefined;
  return dew && { dew, cold, isDryThere: there_RH !== undefined && there_RH < DAMPNESS.dryAir_RH };
}

function take(
  dewState: DewState,
  meeting: Meeting | undefined,
  margin_C: number,
  rule: HoldRule,
  end: number,
): void {
  const over_C = meeting && meeting.dew.dewPoint_C - meeting.cold.sand_C;
  const isDry = meeting?.isDryThere === true;
  const above = over_C !== undefined && over_C >= margin_C && !isDry;
  const gone = isDry || (over_C !== undefined && over_C < margin_C - DAMPNESS.condensationClear_C);
  dewState.hold = nextHold(dewState.hold, meeting && { above, gone }, rule, end);
  if (!above || !meeting) return;
  dewState.coldest = meeting.cold.probe.id;
  dewState.sand_C = meeting.cold.sand_C;
  dewState.dewPoint_C = meeting.dew.dewPoint_C;
  dewState.source = meeting.dew.source;
}
