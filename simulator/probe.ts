/** What a cheap probe makes of the truth: an offset of its own, noise, and steps. */
import { normal, type Random, randomFor } from './random.js';

/** °C and %RH, standard deviations: of the class ±0.5 °C and ±3 %RH (data sheets: ±0.2 to ±0.5 °C, ±2 to ±3 %RH). */
const OFFSET_C = 0.2;
const OFFSET_RH = 1.2;
const NOISE_C = 0.03;
const NOISE_RH = 0.25;

/** Steps in which such a probe tells its values. */
const STEP_C = 0.01;
const STEP_RH = 0.1;

/** A fresh pair of cells and what a season takes from it, V. Judgement. */
const BATTERY_V = 3.1;
const BATTERY_LOSS_V_day = 0.002;

export interface Measurement {
  readonly temperature_C: number;
  readonly humidity_RH: number;
  readonly battery_V: number;
}

const inSteps = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(2));

export class Probe {
  readonly id: string;
  readonly #random: Random;
  readonly #offset_C: number;
  readonly #offset_RH: number;

  constructor(id: string, seed: number) {
    this.id = id;
    this.#random = randomFor(seed, 'probe', id);
    this.#offset_C = OFFSET_C * normal(this.#random);
    this.#offset_RH = OFFSET_RH * normal(this.#random);
  }

  measure(temperature_C: number, humidity_RH: number, day: number): Measurement {
    const shown_C = temperature_C + this.#offset_C + NOISE_C * normal(this.#random);
    const shown_RH = humidity_RH + this.#offset_RH + NOISE_RH * normal(this.#random);
    return {
      temperature_C: inSteps(shown_C, STEP_C),
      humidity_RH: inSteps(Math.min(100, Math.max(0, shown_RH)), STEP_RH),
      battery_V: inSteps(BATTERY_V - BATTERY_LOSS_V_day * day, STEP_C),
    };
  }
}
