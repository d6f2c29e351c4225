/** What probes, or a hand's thermometer, say of the sand before roots are in it. */
import { dailySwing_C, twoDaysOf } from './readiness-days.js';
import { type Answer, type AnsweredBy, type ReadinessItem, withLimits } from './readiness-item.js';
import { type LimitsInForce, ownLimit, sandLimit, watchLimit } from './readiness-limits.js';
import {
  atMost,
  fixed,
  greatest,
  highest,
  humiditiesOf,
  least,
  mapped,
  type Named,
  type ProbeInputs,
  type ReadinessProbe,
  stateOfValues,
  TOO_FEW,
  unknown,
  type Values,
  valuesOf,
} from './readiness-worst.js';

/** From here on the watch's limit of the swing is meant. cm. */
const SWING_FROM_cm = 20;

/** A smaller swing of the shade says nothing of the sand. °C. Judgement. */
const LEAST_SHADE_SWING_C = 3;

/** Items of probes that lie in sand; none where no probe does: the hand answers then, and the weighed sample. */
export function itemsOfSandProbes(inputs: ProbeInputs, limits: LimitsInForce): ReadinessItem[] {
  const inSand = inputs.probes.filter(({ lies }) => lies === 'sand');
  if (inSand.length === 0) return [];
  const temperatures = valuesOf(inSand, ({ hours }) => twoDaysOf(hours, 'temperature_C', inputs.at));
  const lastDay = mapped(temperatures, ({ last }) => last);
  const damp = inSand.filter(({ calibratedAt }) => calibratedAt.humidity !== undefined);
  return [
    sandTemperature('probe', lastDay, limits),
    sandCooled('probe', lastDay, inputs, limits),
    withLimits(
      {
        id: 'sand-steady',
        question: 'Does the sand keep its temperature from day to day?',
        limit: `a change of at most ${limits.own.sand_steady_C} °C`,
        reason: 'sand that still cools or warms hides the warmth of rot in the first weeks',
        answeredBy: 'probe',
      },
      [ownLimit('sand_steady_C', limits)],
      atMost(
        mapped(temperatures, ({ before, last }) => Math.abs(last - before)),
        limits.own.sand_steady_C,
        '°C',
      ),
    ),
    ...(damp.length > 0 ? [sandHumidity(damp, inputs.at, limits)] : []),
    sandSwing(inSand, inputs, limits),
  ];
}

const notMeasured = (answeredBy: AnsweredBy): Answer =>
  unknown(answeredBy === 'probe' ? TOO_FEW : 'not measured');

/** Of the sand wherever it is: by its coldest and its warmest place in the last day, or by a hand's thermometer. */
export function sandTemperature(
  answeredBy: AnsweredBy,
  values: Values<number>,
  limits: LimitsInForce,
): ReadinessItem {
  const { sand_least_C, sand_most_C } = limits.own;
  const { found, isComplete } = values;
  const answer = (): Answer => {
    if (found.length === 0) return notMeasured(answeredBy);
    const [low, high] = [least(found), greatest(found)];
    const state = stateOfValues(isComplete, low.value >= sand_least_C && high.value <= sand_most_C);
    if (state === 'unknown') return notMeasured(answeredBy);
    const text = ({ id, value }: Named): string => `${fixed(value)} °C (${id})`;
    return { measure: low.id === high.id ? text(low) : `${text(low)} to ${text(high)}`, state };
  };
  return withLimits(
    {
      id: 'sand-temperature',
      question: 'Is the sand neither too cold nor too warm for roots?',
      limit: `${sand_least_C} to ${sand_most_C} °C`,
      reason: 'roots are chilled below and rot or sprout soon above',
      answeredBy,
    },
    [ownLimit('sand_least_C', limits), ownLimit('sand_most_C', limits)],
    answer(),
  );
}

/** Warmest place of the sand against the shade of both days. */
export function sandCooled(
  answeredBy: AnsweredBy,
  { found, isComplete }: Values<number>,
  { at, shade }: ProbeInputs,
  limits: LimitsInForce,
): ReadinessItem {
  const most_C = limits.sand.sand_warm_above_C;
  const outside = shade && twoDaysOf(shade, 'temperature_C', at);
  const answer = (): Answer => {
    if (found.length === 0) return notMeasured(answeredBy);
    if (!outside) return unknown(shade ? `in the shade, ${TOO_FEW}` : 'no probe lies in the shade');
    const warmest = greatest(found);
    const above_C = warmest.value - (outside.before + outside.last) / 2;
    const state = stateOfValues(isComplete, above_C <= most_C);
    if (state === 'unknown') return notMeasured(answeredBy);
    return { measure: `${fixed(above_C)} °C (${warmest.id})`, state };
  };
  return withLimits(
    {
      id: 'sand-cooled',
      question: 'Has the sand cooled to the mean of the shade?',
      limit: `at most ${most_C} °C above it`,
      reason: 'a bed that is filled warm keeps it for days, and roots sprout and rot in it',
      answeredBy,
    },
    [sandLimit('sand_warm_above_C', limits)],
    answer(),
  );
}

function sandHumidity(probes: readonly ReadinessProbe[], at: number, limits: LimitsInForce): ReadinessItem {
  const most_RH = limits.own.sand_dry_RH;
  return withLimits(
    {
      id: 'sand-humidity',
      question: 'Is the air in the sand that of dry sand?',
      limit: `at most ${most_RH} %RH on both days`,
      reason: 'humid air in sand without roots means water in the sand; only a weighed sample tells how much',
      answeredBy: 'probe',
    },
    [ownLimit('sand_dry_RH', limits)],
    atMost(mapped(humiditiesOf(probes, at), highest), most_RH, '%RH'),
  );
}

function sandSwing(
  inSand: readonly ReadinessProbe[],
  { at, shade }: ProbeInputs,
  limits: LimitsInForce,
): ReadinessItem {
  const most = limits.watch.damp_swing_share;
  const deep = inSand.filter(({ depth_cm }) => depth_cm >= SWING_FROM_cm);
  const outside_C = shade && dailySwing_C(shade, at);
  const swings = valuesOf(deep, ({ hours }) => dailySwing_C(hours, at));
  const answer = (): Answer => {
    if (deep.length === 0) return unknown(`no probe lies ${SWING_FROM_cm} cm deep or deeper in the sand`);
    if (outside_C === undefined)
      return unknown(shade ? `in the shade, ${TOO_FEW}` : 'no probe lies in the shade');
    if (!(outside_C >= LEAST_SHADE_SWING_C)) return unknown(`the shade swung by ${fixed(outside_C)} °C only`);
    if (swings.found.length === 0) return unknown(TOO_FEW);
    const worst = greatest(swings.found);
    const share = worst.value / outside_C;
    const state = stateOfValues(swings.isComplete, share <= most);
    return state === 'unknown'
      ? unknown(TOO_FEW)
      : { measure: `${share.toFixed(2)} of it (${worst.id})`, state };
  };
  return withLimits(
    {
      id: 'sand-swing',
      question: 'Does little of the daily swing of the shade reach the sand?',
      limit: `at most ${most} of it, ${SWING_FROM_cm} cm deep or deeper`,
      reason: 'more of it means damp sand, a gap, or a probe that does not lie where it should',
      answeredBy: 'probe',
    },
    [watchLimit('damp_swing_share', limits)],
    answer(),
  );
}
