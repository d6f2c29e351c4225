/** Air over a bed: under the thatch of a pit, or in the hut around a box. */
import type { SimulatedBed } from './scenario.js';
import type { Roofing } from './unknowns.js';
import { sunHeight } from './weather.js';

/** Below so much of the noon sun's height it cannot be told how clear the sky is. */
const LOW = 0.1;

export class Roof {
  readonly #inHut: boolean;
  readonly #roofing: Roofing;
  #air_C: number;
  /** Of the sky when last the sun stood high enough: 0 to 1. */
  #clear = 0;

  /** @param start_C of the air when the season begins */
  constructor(kind: SimulatedBed['kind'], roofing: Roofing, start_C: number) {
    this.#inHut = kind === 'box';
    this.#roofing = roofing;
    this.#air_C = start_C;
  }

  /** Under the roof as last stepped, °C. */
  get air_C(): number {
    return this.#air_C;
  }

  /** Goes on from where another is. */
  takeOver(other: Roof): void {
    this.#air_C = other.#air_C;
    this.#clear = other.#clear;
  }

  /**
   * Goes on by a time.
   *
   * @param air_C in the shade outside
   * @param sun on open ground as a share of a clear noon's
   * @param hour of the day, 0 to 24
   * @returns air under the roof, °C
   */
  step(air_C: number, sun: number, hour: number, step_s: number): number {
    const { sun_C, hutFollows_h, hutWarmer_C } = this.#roofing;
    const sunny_C = sun_C * this.#under(sun, hour);
    if (this.#inHut) {
      const target_C = air_C + hutWarmer_C + sunny_C;
      this.#air_C += ((target_C - this.#air_C) * step_s) / (hutFollows_h * 3600);
    } else this.#air_C = air_C + sunny_C;
    return this.#air_C;
  }

  /** A roof lets the sun through earlier or later in the day than it stands over open ground. */
  #under(sun: number, hour: number): number {
    const { sunLater_h } = this.#roofing;
    if (sunLater_h === 0) return sun;
    const height = sunHeight(hour);
    if (height > LOW) this.#clear = Math.min(1, sun / height);
    return this.#clear * sunHeight(hour - sunLater_h);
  }
}
