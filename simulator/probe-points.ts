/** What a bed's sand is like where its probes are. */
import { type Grid, interpolation } from './grid.js';
import type { Moisture } from './moisture.js';
import type { Place } from './true-places.js';

export interface SandAt {
  readonly temperature_C: number;
  /** Whether the sand there has taken up water from a leak. */
  readonly wet: boolean;
  /** Distance to the nearest such sand, m; infinite where there is none. */
  readonly fromWet_m: number;
  /** How near to saturated its air is by water that has crept in, 0 to 1. */
  readonly damp: number;
  /** Of the air, where the probe lies in the open instead of in sand. */
  readonly air_RH?: number;
}

/** Air over the bed. */
export interface Air {
  readonly temperature_C: number;
  readonly humidity_RH: number;
}

/** A probe's place, and what a value there is made of. */
export class ProbePoint {
  readonly #place: Place;
  readonly #weights: readonly { cell: number; weight: number }[];
  /** Cell that it lies in. */
  readonly #nearest: number;
  #fromWet_m = Number.POSITIVE_INFINITY;
  #wetSeen = 0;

  constructor(grid: Grid, place: Place) {
    this.#place = place;
    this.#weights = interpolation(grid, place.x / 100, place.y / 100, place.depth / 100);
    this.#nearest = this.#weights.reduce((one, other) => (other.weight > one.weight ? other : one)).cell;
  }

  get depth_cm(): number {
    return this.#place.depth;
  }

  inSand(temperature_C: Float64Array, moisture: Moisture): SandAt {
    let sum = 0;
    for (const { cell, weight } of this.#weights) sum += weight * (temperature_C[cell] as number);
    return {
      temperature_C: sum,
      wet: moisture.wet(this.#nearest),
      fromWet_m: this.#distance_m(moisture.wetPlaces),
      damp: moisture.damp(this.#nearest),
    };
  }

  /** Only the places that were wetted since the last time need a look. */
  #distance_m(wetPlaces: Moisture['wetPlaces']): number {
    const [px, py, pz] = [this.#place.x / 100, this.#place.y / 100, this.#place.depth / 100];
    for (; this.#wetSeen < wetPlaces.length; this.#wetSeen += 1) {
      const [x, y, z] = wetPlaces[this.#wetSeen] as Moisture['wetPlaces'][number];
      this.#fromWet_m = Math.min(this.#fromWet_m, Math.hypot(px - x, py - y, pz - z));
    }
    return this.#fromWet_m;
  }
}

export const inTheOpen = ({ temperature_C, humidity_RH }: Air): SandAt => ({
  temperature_C,
  wet: false,
  fromWet_m: Number.POSITIVE_INFINITY,
  damp: 0,
  air_RH: humidity_RH,
});
