/** A season day by day: what each probe of a bed, or of the shade, sends. */

import { weatherFrom } from './air-file.js';
import { BedRun, TICK_s } from './bed-run.js';
import { type Delivery, Gateway, type Reading } from './delivery.js';
import { PoreAir } from './humidity.js';
import { Probe } from './probe.js';
import { randomFor } from './random.js';
import type { Scenario, SimulatedBed } from './scenario.js';
import { type Hour, madeUpWeather } from './weather.js';

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
  const bed = scenario.beds.find(({ id }) => id === part);
  const weather = weatherOf(scenario, seed);
  const gateway = new Gateway(part, seed, scenario.faults);
  let now = nextHour(weather);
  const measure = bed ? bedMeasurer(scenario, bed, seed, now) : shadeMeasurer(scenario, seed);
  const everyTicks = scenario.everyMinutes / 10;
  for (let day = 0; day < scenario.days; day += 1) {
    const sent: Delivery[] = [];
    for (let hour = 0; hour < 24; hour += 1) {
      const next = nextHour(weather);
      const ticks = measure(now, next, day + hour / 24);
      ticks.forEach((readings, tick) => {
        const time_s = (day * 24 + hour) * 3600 + (tick + 1) * TICK_s;
        if ((tick + 1) % everyTicks === 0)
          sent.push(
            ...gateway.send(
              time_s,
              readings.map(([probe, value]) => [probe, { ...value, time_s }]),
            ),
          );
      });
      now = next;
    }
    yield sent;
  }
}

type Measurer = (from: Hour, to: Hour, day: number) => [string, Omit<Reading, 'time_s'>][][];

function bedMeasurer(scenario: Scenario, bed: SimulatedBed, seed: number, first: Hour): Measurer {
  const run = new BedRun(scenario, bed, first);
  const probes = bed.probes.map(({ id }) => ({
    probe: new Probe(id, seed),
    air: new PoreAir(randomFor(seed, 'air', id)),
  }));
  return (from, to, day) =>
    run.next(from, to).map((sands) =>
      probes.map(({ probe, air }, index) => {
        const sand = sands[index] as (typeof sands)[number];
        return [probe.id, probe.measure(sand.temperature_C, air.next(sand, TICK_s / 3600), day)];
      }),
    );
}

function shadeMeasurer({ shade }: Scenario, seed: number): Measurer {
  const probes = shade.map((id) => new Probe(id, seed));
  return (from, to, day) =>
    Array.from({ length: 3600 / TICK_s }, (_, tick) => {
      const share = ((tick + 1) * TICK_s) / 3600;
      const air_C = from.air_C + share * (to.air_C - from.air_C);
      const air_RH = from.air_RH + share * (to.air_RH - from.air_RH);
      return probes.map((probe) => [probe.id, probe.measure(air_C, air_RH, day)]);
    });
}
