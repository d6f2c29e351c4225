/** What drove a bed, step by step: the air outside and the warmth of its roots. */
import { RESPIRATION_AT_15_C_W_kg } from '../../physics/index.js';
import { STEP_h } from './curve.js';
import { RESPIRATION_Q10 } from './nominal.js';
import { FRESH_SHARE, SETTLING_h } from './priors.js';
import { REMEMBERED_steps } from './taps.js';

/** A degree's share of the change of respiration in ten. */
const PER_DEGREE = Math.log(RESPIRATION_Q10) / 10;

/** Warmth above the reference about which the rise with warmth is taken to be linear, °C. */
const MIDDLE_C = 5;

/** In numbers that a checkpoint keeps exactly. */
const kept = Math.fround;

export class History {
  /** The shade against the reference, °C. */
  readonly air: number[] = [];
  /** The bed against the reference, and against the air of the last two days, °C. */
  readonly bed: number[] = [];
  readonly excess: number[] = [];
  /** Warmth of roots in a cubic metre, W; its surplus while fresh; how that changes with the time it takes. */
  readonly roots: number[] = [];
  readonly fresh: number[] = [];
  readonly settling: number[] = [];
  /** What roots give more where it is warmer than at the middle probe; how both change with the rise in ten degrees. */
  readonly warm: number[] = [];
  readonly q10: number[] = [];
  readonly q10Warm: number[] = [];
  readonly #roots_kg_m3: number;
  readonly #reference_C: number;
  #count = 0;

  constructor(roots_kg_m3: number, reference_C: number) {
    this.#roots_kg_m3 = roots_kg_m3;
    this.#reference_C = reference_C;
  }

  get count(): number {
    return this.#count;
  }

  /** The air at the same time a day ago, for a step without any; °C against the reference. */
  usualAir(): number {
    return this.air.at(-4) ?? this.air.at(-1) ?? 0;
  }

  add(air: number, bed: number): void {
    this.air.push(kept(air));
    const lately = this.air.slice(-8);
    const mean = lately.reduce((sum, value) => sum + value, 0) / lately.length;
    this.#addBed(kept(bed), kept(bed - mean));
  }

  #addBed(bed: number, excess: number): void {
    const roots =
      this.#roots_kg_m3 *
      RESPIRATION_AT_15_C_W_kg.cured *
      Math.exp(PER_DEGREE * (this.#reference_C + bed - 15));
    const settled = (this.#count * STEP_h) / SETTLING_h;
    this.#count += 1;
    this.bed.push(bed);
    this.excess.push(excess);
    this.roots.push(roots);
    this.fresh.push(roots * Math.exp(-settled));
    this.settling.push(FRESH_SHARE * roots * settled * Math.exp(-settled));
    this.warm.push(roots * PER_DEGREE * excess);
    this.q10.push((roots * (bed - MIDDLE_C)) / 10);
    this.q10Warm.push((roots * excess) / 10);
    if (this.bed.length > REMEMBERED_steps) for (const series of this.#all()) series.shift();
  }

  #all(): number[][] {
    return [
      ...[this.air, this.bed, this.excess, this.roots, this.fresh, this.settling],
      ...[this.warm, this.q10, this.q10Warm],
    ];
  }

  save(): { count: number; air: Float32Array; bed: Float32Array; excess: Float32Array } {
    return {
      count: this.#count,
      air: Float32Array.from(this.air),
      bed: Float32Array.from(this.bed),
      excess: Float32Array.from(this.excess),
    };
  }

  restore(saved: ReturnType<History['save']>): void {
    this.#count = saved.count - saved.bed.length;
    this.air.push(...saved.air);
    saved.bed.forEach((bed, index) => {
      this.#addBed(bed, saved.excess[index] as number);
    });
  }
}
