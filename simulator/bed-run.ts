/** One bed through its season, hour by hour: what the sand is like at each of its probes. */
import { startOf } from './air-file.js';
import { type BedModel, buildBed, OUTSIDE } from './bed-model.js';
import { eachCell, middle } from './grid.js';
import { SUN_ON_GROUND_C } from './materials.js';
import { Moisture } from './moisture.js';
import { Cover, cellsAbove } from './openings.js';
import { type Air, inTheOpen, ProbePoint, type SandAt } from './probe-points.js';
import { randomFor } from './random.js';
import { respiration_W_kg } from './respiration.js';
import { Roof } from './roof.js';
import { unevenDensity } from './roots.js';
import { rot_W, rotShares, rotsUntil } from './rot.js';
import type { Scenario, SimulatedBed } from './scenario.js';
import type { Opening } from './scenario-bed.js';
import { TICK_s, TICKS_A_DAY, TICKS_AN_HOUR, tickOf } from './ticks.js';
import { truePlaces } from './true-places.js';
import { type Unknowns, unknownsOf } from './unknowns.js';
import { between, type Hour, saturation_hPa } from './weather.js';

/** How far from the mean density roots lie at the most, as a share, where all that is unknown varies. Judgement. */
const UNEVEN_SHARE = 0.3;

/** How often water is taken to where it has come, h. */
const MOISTEN_EVERY_h = 6;

export class BedRun {
  readonly #scenario: Scenario;
  readonly #bed: SimulatedBed;
  readonly #first: Hour;
  readonly #seed: number;
  readonly #unknowns: Unknowns;
  readonly #model: BedModel;
  readonly #deepGround_C: number;
  readonly #rots: readonly { share: Float64Array; power_W: (day: number) => number }[];
  readonly #moisture: Moisture;
  readonly #cover: Cover;
  readonly #roof: Roof;
  readonly #pulled: (probe: string, tick: number) => boolean;
  #points: ReadonlyMap<string, ProbePoint>;
  /** Down to where there is no sand, cm, and the cells that held it. */
  #gone_cm = 0;
  #gone: readonly number[] = [];
  #hour = 0;

  /** @param first weather of the season's first hour */
  constructor(scenario: Scenario, bed: SimulatedBed, first: Hour, seed: number) {
    const { variation, airTemperatures_C, weather } = scenario;
    this.#scenario = scenario;
    this.#bed = bed;
    this.#first = first;
    this.#seed = seed;
    this.#unknowns = unknownsOf(scenario, bed, seed);
    const density = unevenDensity(randomFor(seed, 'unknown', bed.id, 'roots'), variation * UNEVEN_SHARE);
    this.#model = buildBed(bed, this.#unknowns, density);
    this.#deepGround_C = scenario.deepGround_C + this.#unknowns.deepWarmer_C;
    const { grid } = this.#model.conduction;
    this.#rots = rotsUntil(bed).map(({ rot, endDay }) => ({
      share: rotShares(grid, rot),
      power_W: (day) => (day < endDay ? rot_W(rot, day) : 0),
    }));
    this.#moisture = new Moisture(bed, this.#model, this.#unknowns);
    this.#cover = new Cover(bed);
    this.#pulled = pulledOf(scenario);
    const start_C = airTemperatures_C ? startOf(airTemperatures_C) : (weather.means[0]?.[1] ?? first.air_C);
    this.#roof = new Roof(bed.kind, this.#unknowns.roof, start_C);
    this.#fill(start_C);
    this.#points = this.#pointsOn(0);
  }

  /** Ground between the air's mean above and its own below; sand as it was filled in. */
  #fill(start_C: number): void {
    const { conduction, inBed } = this.#model;
    const { grid, temperature_C } = conduction;
    const depth = grid.wallsZ[grid.nz] as number;
    eachCell(grid, (cell, _i, _j, k) => {
      const share = middle(grid.wallsZ, k) / depth;
      const ground_C = start_C + share * (this.#deepGround_C - start_C);
      temperature_C[cell] = inBed[cell] === 1 ? start_C + this.#unknowns.filledWarmer_C : ground_C;
    });
  }

  #pointsOn(day: number): Map<string, ProbePoint> {
    const places = truePlaces(this.#scenario, this.#bed, this.#seed, day);
    const { grid } = this.#model.conduction;
    return new Map(Array.from(places, ([id, place]) => [id, new ProbePoint(grid, place)]));
  }

  /** Heat content, roots' and rot's release and boundary inflow are the conduction's: for tests of conservation. */
  get model(): BedModel {
    return this.#model;
  }

  /** The same bed as it is now, with no rot from now on. Before any rot has begun: the bed as if there never were any. */
  withoutRots(): BedRun {
    const twin = new BedRun(this.#scenario, { ...this.#bed, rots: [] }, this.#first, this.#seed);
    twin.#hour = this.#hour;
    twin.#moisture.upTo((Math.ceil(this.#hour / MOISTEN_EVERY_h) - 1) * (MOISTEN_EVERY_h / 24));
    twin.#model.conduction.temperature_C.set(this.#model.conduction.temperature_C);
    twin.#roof.takeOver(this.#roof);
    twin.#points = twin.#pointsOn(this.#hour / 24);
    return twin;
  }

  /**
   * Goes on by one hour.
   *
   * @param from weather at its beginning
   * @param to weather at its end
   * @returns the sand at each probe, in the bed's order of probes, at the end of each ten minutes
   */
  next(from: Hour, to: Hour): SandAt[][] {
    const day = this.#hour / 24;
    this.#release(day);
    if (this.#hour % MOISTEN_EVERY_h === 0) this.#moisture.upTo(day);
    const ticks: SandAt[][] = [];
    for (let index = 0; index < TICKS_AN_HOUR; index += 1) {
      const tick = this.#hour * TICKS_AN_HOUR + index;
      this.#uncover(tick);
      this.#step(from, to, (index + 0.5) / TICKS_AN_HOUR);
      ticks.push(this.#sands(tick, this.#airOver(between(from, to, (index + 1) / TICKS_AN_HOUR))));
    }
    this.#hour += 1;
    return ticks;
  }

  #step(from: Hour, to: Hour, share: number): void {
    const { air_C, sun } = between(from, to, share);
    const outside_C: number[] = [];
    outside_C[OUTSIDE.sheltered] = this.#roof.step(air_C, sun, (this.#hour % 24) + share, TICK_s);
    outside_C[OUTSIDE.open] = air_C + SUN_ON_GROUND_C * sun;
    outside_C[OUTSIDE.deep] = this.#deepGround_C;
    const { conduction } = this.#model;
    const steps = Math.ceil(TICK_s / conduction.longestStep_s);
    this.#airOut(this.#roof.air_C);
    for (let step = 0; step < steps; step += 1) {
      conduction.step(TICK_s / steps, outside_C);
      this.#airOut(this.#roof.air_C);
    }
  }

  /** Where there is no sand there is air. */
  #airOut(air_C: number): void {
    for (const cell of this.#gone) this.#model.conduction.temperature_C[cell] = air_C;
  }

  /** Opens and closes the bed as the tick begins. */
  #uncover(tick: number): void {
    const closing = this.#cover.closing(tick);
    const gone_cm = this.#cover.gone_cm(tick);
    if (gone_cm !== this.#gone_cm) {
      const { conduction, inBed } = this.#model;
      this.#gone_cm = gone_cm;
      this.#gone = gone_cm > 0 ? cellsAbove(conduction.grid, inBed, gone_cm) : [];
    }
    if (closing) this.#putBack(closing, tick);
  }

  /** Sand goes back as warm as it became outside; probes with it, to about where they were. */
  #putBack({ depth, sunWarmed_C }: Opening, tick: number): void {
    const { conduction, inBed } = this.#model;
    for (const cell of cellsAbove(conduction.grid, inBed, depth))
      conduction.temperature_C[cell] = this.#roof.air_C + sunWarmed_C;
    this.#points = this.#pointsOn(tick / TICKS_A_DAY);
  }

  /** Heat that roots, sound and rotting, give off in the hour that begins. */
  #release(day: number): void {
    const { conduction, roots_kg } = this.#model;
    const { source_W, temperature_C } = conduction;
    const { respiration } = this.#unknowns;
    for (let cell = 0; cell < source_W.length; cell += 1) {
      const roots = roots_kg[cell] as number;
      source_W[cell] =
        roots === 0 ? 0 : roots * respiration_W_kg(temperature_C[cell] as number, day, respiration);
    }
    for (const { share, power_W } of this.#rots) {
      const rotting_W = power_W(day);
      if (!(rotting_W > 0)) continue;
      for (let cell = 0; cell < source_W.length; cell += 1)
        source_W[cell] = (source_W[cell] as number) + rotting_W * (share[cell] as number);
    }
  }

  /** Under the roof, with the vapour of the air outside. */
  #airOver({ air_C, air_RH }: Hour): Air {
    const temperature_C = this.#roof.air_C;
    const humidity_RH = (air_RH * saturation_hPa(air_C)) / saturation_hPa(temperature_C);
    return { temperature_C, humidity_RH: Math.min(100, humidity_RH) };
  }

  #sands(tick: number, air: Air): SandAt[] {
    const { temperature_C } = this.#model.conduction;
    return Array.from(this.#points, ([probe, point]) =>
      point.depth_cm < this.#gone_cm || this.#pulled(probe, tick)
        ? inTheOpen(air)
        : point.inSand(temperature_C, this.#moisture),
    );
  }
}

/** Whether a probe lies on the surface. */
function pulledOf({ faults }: Scenario): (probe: string, tick: number) => boolean {
  const spans = faults.probes
    .filter(({ kind }) => kind === 'pulled')
    .map(({ probe, startDay, days = Number.POSITIVE_INFINITY }) => ({
      probe,
      from: tickOf(startDay),
      to: tickOf(startDay + days),
    }));
  return (probe, tick) => spans.some((span) => span.probe === probe && tick >= span.from && tick < span.to);
}
