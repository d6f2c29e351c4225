/** A season day by day: what each probe of a bed, or of the shade, sends, and beside it what is true. */
import { weatherFrom } from './air-file.js';
import type { Delivery } from './delivery.js';
import { MeasuredBed, MeasuredShade, type TrueSand } from './measured.js';
import { seedOfSeries } from './random.js';
import type { Scenario } from './scenario.js';
import { TICK_s } from './ticks.js';
import { WayOut } from './way-out.js';
import { type Hour, madeUpWeather } from './weather.js';

/** At the end of an hour; of the shade there is nothing. */
export interface TrueHour {
  /** Hours since the filling. */
  readonly hour: number;
  readonly sands: readonly TrueSand[];
}

export interface SimulatedDay {
  readonly sent: Delivery[];
  readonly hours: TrueHour[];
}

function weatherOf({ airTemperatures_C, weather }: Scenario, seed: number): Iterator<Hour> {
  return airTemperatures_C
    ? weatherFrom(airTemperatures_C, weather.dewPoint_C)
    : madeUpWeather(weather, seed);
}

/** The weather never ends. */
const nextHour = (weather: Iterator<Hour>): Hour => weather.next().value as Hour;

/**
 * One bed, or the shade, through its season.
 *
 * @param part a bed's id, or `SHADE`
 * @yields for each day what is sent on it, in order
 */
export function* simulateDays(scenario: Scenario, part: string, seed: number): Generator<Delivery[]> {
  for (const { sent } of daysOf(scenario, part, seed, false)) yield sent;
}

/**
 * The same, and what is true at each probe. From the first rot on a bed is simulated with and without, side by
 * side: up to twice the work.
 */
export function simulateDaysWithTruth(
  scenario: Scenario,
  part: string,
  seed: number,
): Generator<SimulatedDay> {
  return daysOf(scenario, part, seed, true);
}

function* daysOf(
  scenario: Scenario,
  part: string,
  seasonSeed: number,
  withTruth: boolean,
): Generator<SimulatedDay> {
  const seed = seedOfSeries(seasonSeed, scenario.series);
  const bed = scenario.beds.find(({ id }) => id === part);
  const weather = weatherOf(scenario, seed);
  const way = new WayOut(scenario, part, seed);
  let now = nextHour(weather);
  const place = bed
    ? new MeasuredBed(scenario, bed, seed, now, withTruth)
    : new MeasuredShade(scenario, seed);
  for (let day = 0; day < scenario.days; day += 1) {
    const sent: Delivery[] = [];
    const hours: TrueHour[] = [];
    for (let hour = 0; hour < 24; hour += 1) {
      const next = nextHour(weather);
      place.next(now, next, day * 24 + hour).forEach((measured, tick) => {
        sent.push(...way.send((day * 24 + hour) * 3600 + (tick + 1) * TICK_s, measured));
      });
      if (withTruth) hours.push({ hour: day * 24 + hour + 1, sands: place.truth() });
      now = next;
    }
    yield { sent, hours };
  }
}
