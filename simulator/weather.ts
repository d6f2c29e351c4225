/**
 * Weather of a dry season, hour by hour: a mean that drifts, days that resemble the day before, hot spells, clouds
 * that flatten a day, and a day that warms faster than it cools. Nothing in it is a sine of the date alone.
 */
import { normal, type Random, randomFor } from './random.js';

export interface Hour {
  /** Air in the shade, °C and %RH. */
  readonly air_C: number;
  readonly air_RH: number;
  /** Sun on open ground as a share of a clear noon's, 0 to 1. */
  readonly sun: number;
}

/** Weather some share of the way from one hour to the next. */
export const between = (from: Hour, to: Hour, share: number): Hour => ({
  air_C: from.air_C + share * (to.air_C - from.air_C),
  air_RH: from.air_RH + share * (to.air_RH - from.air_RH),
  sun: from.sun + share * (to.sun - from.sun),
});

export interface HotSpell {
  readonly startDay: number;
  readonly days: number;
  readonly warmer_C: number;
}

export interface WeatherOptions {
  /** Daily means through the season: [day, °C] in order of days; straight between, level beyond. */
  readonly means: readonly (readonly [day: number, mean_C: number])[];
  /** Difference of the warmest and coldest hour of a clear day, °C. */
  readonly swing_C: number;
  /** Dew point of the air, °C: in a dry season it changes from day to day, little within one. */
  readonly dewPoint_C: number;
  readonly hotSpells: readonly HotSpell[];
}

/** How much of a day's departure from the season's mean is left the next day. From memory: 0.6 to 0.8 is usual. */
const PERSISTENCE = 0.7;
const DAY_DEVIATION_C = 1.4;

/** Hour of the warmest and the coldest time of day, by the sun's clock. From memory. */
const WARMEST_h = 14.5;
const COLDEST_h = 6;

/** Air through a day as a share of the swing, from -0.5 to 0.5: up in 8.5 hours, down in 15.5, the fall steepest after sunset. */
function dayShape(hour: number): number {
  const sinceColdest = (hour - COLDEST_h + 24) % 24;
  const rise_h = WARMEST_h - COLDEST_h;
  if (sinceColdest < rise_h) return -0.5 * Math.cos((Math.PI * sinceColdest) / rise_h);
  const fallen = (sinceColdest - rise_h) / (24 - rise_h);
  return 0.5 * Math.cos(Math.PI * fallen ** 0.75);
}

/** Mean of `dayShape` over a day, so that a day's mean is what it is said to be. */
const SHAPE_MEAN =
  Array.from({ length: 240 }, (_, tenth) => dayShape(tenth / 10)).reduce((sum, value) => sum + value) / 240;

function seasonMean(means: WeatherOptions['means'], day: number): number {
  const after = means.findIndex(([at]) => at >= day);
  const [first, last] = [means[0], means.at(-1)];
  if (after === 0 && first) return first[1];
  const [before, next] = [means[after - 1], means[after]];
  if (!before || !next) return last?.[1] ?? 20;
  return before[1] + ((next[1] - before[1]) * (day - before[0])) / (next[0] - before[0]);
}

/** A spell comes within a day and goes within a day. */
function spellAt(spells: readonly HotSpell[], day: number): number {
  return spells.reduce((sum, { startDay, days, warmer_C }) => {
    const ramp = Math.min(1, Math.max(0, day - startDay), Math.max(0, startDay + days - day));
    return sum + warmer_C * ramp;
  }, 0);
}

/** Height of the sun as a share of noon's: up at six, down at eighteen. */
export const sunHeight = (hour: number): number => Math.max(0, Math.sin((Math.PI * (hour - 6)) / 12));

/** Saturation vapour pressure, hPa. WMO-No. 8 (2018), annex 4.B: 6.112 exp(17.62 t / (243.12 + t)), -45 to 60 °C. */
export const saturation_hPa = (air_C: number): number => 6.112 * Math.exp((17.62 * air_C) / (243.12 + air_C));

/** Hour by hour from the season's first midnight, for as many hours as are asked for. */
export function* madeUpWeather(options: WeatherOptions, seed: number): Generator<Hour> {
  const random = randomFor(seed, 'weather');
  let departure_C = 0;
  let dewDeparture_C = 0;
  for (let day = 0; ; day += 1) {
    departure_C = nextDay(departure_C, DAY_DEVIATION_C, random);
    dewDeparture_C = nextDay(dewDeparture_C, 1, random);
    const cloud = random() ** 3;
    for (let hour = 0; hour < 24; hour += 1)
      yield hourOf(options, day, hour, departure_C, dewDeparture_C, cloud);
  }
}

const nextDay = (before: number, deviation: number, random: Random): number =>
  PERSISTENCE * before + Math.sqrt(1 - PERSISTENCE ** 2) * deviation * normal(random);

function hourOf(
  options: WeatherOptions,
  day: number,
  hour: number,
  departure_C: number,
  dewDeparture_C: number,
  cloud: number,
): Hour {
  const now = day + hour / 24;
  const swing_C = options.swing_C * (1 - 0.6 * cloud);
  const level_C = seasonMean(options.means, now) + departure_C + spellAt(options.hotSpells, now);
  const air_C = level_C + swing_C * (dayShape(hour) - SHAPE_MEAN);
  const dewPoint_C = Math.min(air_C, options.dewPoint_C + dewDeparture_C);
  return {
    air_C,
    air_RH: (100 * saturation_hPa(dewPoint_C)) / saturation_hPa(air_C),
    sun: sunHeight(hour) * (1 - 0.75 * cloud),
  };
}
