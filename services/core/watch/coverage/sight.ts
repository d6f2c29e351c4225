/** What a bed's probes would find, place by place: the watch's filter, learned once, asked for any place and time. */
import { Bank } from '../warmth/bank.js';
import { BLIND_SCATTER } from '../warmth/heat-watch.js';
import type { Gain } from '../warmth/kalman.js';
import { Layout } from '../warmth/layout.js';
import type { Point } from '../warmth/responses.js';
import { effective } from '../warmth/scatter.js';
import { type Reading, readingOf, Scales } from '../warmth/search.js';
import { type Place3, SHAPES } from '../warmth/sources.js';
import { limitFor, type Rates } from '../warmth/verdict.js';
import { lastStep } from './ages.js';
import { type Carried, carry } from './carried.js';
import { type Chance, chanceOf } from './chance.js';
import { type BedShape, learnedGains } from './learned.js';
import type { PickedModel } from './pool.js';
import { distance_cm } from './spots.js';
import { Trial } from './trial.js';

/**
 * How much the probes of a bed that has been learned scatter, with a shade probe and without: mean square of the whitened
 * innovations as `scatter.ts` has it, and the deviation of its logarithm from bed to bed. Measured at day 20 of simulated
 * seasons in which the unknowns of beds are drawn anew: of the middle probe, 108 seasons with a shade probe, 60 without.
 */
export const SETTLED = {
  shade: { scatter: 0.37, unlike: 0.6 },
  blind: { scatter: 0.6, unlike: 0.65 },
} as const;

/** Times that scatter is taken for more since the bed was new, in the week after: `#unrest` of `heat-watch.ts`. Computed. */
const UNREST = 1.07;

/**
 * Days at which it is looked whether a source was told sooner: once more of it has come it may be like its mirror image,
 * too strong to be one, or too old for its power. The watch looks in every step; so closely only at first, when a strong
 * source grows from nothing to plain within a day. Where none of it matters, it is told at the end if it is told at all.
 */
const LOOKS_days = [1, 1.25, 1.5, 1.75, 2, 2.5, 3, 4, 5, 7, 10, 14] as const;
const MATTERS = 0.02;

/** Places within so many cm count for the statistic; what lies further away is too unlike. */
const AROUND_cm = 30;
/** Where fewer lie as near, the nearest so many. */
const AROUND_least = 4;

export interface SightInput {
  readonly bed: BedShape;
  readonly points: readonly Point[];
  readonly model: PickedModel;
  /** Whether a shade probe tells what the weather does. */
  readonly shade: boolean;
  readonly rates: Rates;
  /** The longest time after its beginning at which a source is asked for, days. */
  readonly days: number;
}

export class Sight {
  readonly #input: SightInput;
  readonly #bank: Bank;
  readonly #scales: Scales;
  readonly #gains: readonly Gain[];
  readonly #carried = new Map<number, Carried>();
  readonly #trials = new Map<number, Trial>();
  readonly #around = new Map<Place3, readonly Reading[]>();

  constructor(input: SightInput) {
    this.#input = input;
    const { bed, points, model, shade, days } = input;
    this.#bank = new Bank(model.sources.shapes, points.length, 0);
    this.#scales = new Scales(points.length);
    this.#gains = learnedGains(bed, points, model.responses, shade, lastStep(days) + 1);
  }

  /** The same for what is told by the last of the days alone: no more than the chance, and cheaper. */
  chanceAtEnd(at: number, power_W: number, days: number): number {
    return this.#chanceAt(this.#input.model.sources.places[at] as Place3, power_W, days).told;
  }

  /**
   * Chance in [0, 1] that a source is told to be unpacked within some days of its beginning.
   *
   * @param at number of the place among the model's sources
   */
  chance(at: number, power_W: number, days: number): number {
    const place = this.#input.model.sources.places[at] as Place3;
    const atEnd = this.#chanceAt(place, power_W, days);
    let { told } = atEnd;
    for (const sooner of LOOKS_days.filter((look) => look < days)) {
      if (told > atEnd.plain - MATTERS) break;
      told = Math.max(told, this.#chanceAt(place, power_W, sooner).told);
    }
    return told;
  }

  #chanceAt(place: Place3, power_W: number, days: number): Chance {
    const { points, rates } = this.#input;
    const last = lastStep(days);
    const trial = this.#trialAt(last);
    return chanceOf({
      tried: trial.of(place, power_W, this.#aroundOf(place)),
      mirror: () => trial.mirror(),
      uncertain: uncertainAt(place, points),
      unlike: this.#settled.unlike,
      limit: limitFor(rates.unpack_per_bed_month),
      step: last,
    });
  }

  get #settled(): (typeof SETTLED)[keyof typeof SETTLED] {
    return this.#input.shade ? SETTLED.shade : SETTLED.blind;
  }

  #trialAt(last: number): Trial {
    const known = this.#trials.get(last);
    if (known) return known;
    const { points, model, shade } = this.#input;
    const usual = UNREST * effective(this.#settled.scatter);
    const trial = new Trial({
      ...{ scales: this.#scales, probes: points.length, last, spread: model.spread },
      carriedAt: (onset) => this.#carriedAt(onset),
      scatter: shade ? usual : BLIND_SCATTER * usual,
    });
    this.#trials.set(last, trial);
    return trial;
  }

  #carriedAt(onset: number): Carried {
    const known = this.#carried.get(onset);
    if (known) return known;
    const carried = carry(this.#bank, this.#gains, onset, new Layout(this.#input.points.length).size);
    this.#carried.set(onset, carried);
    return carried;
  }

  #aroundOf(place: Place3): readonly Reading[] {
    const known = this.#around.get(place);
    if (known) return known;
    const byDistance = this.#input.model.spread
      .map((other) => ({ other, away: distance_cm(place, other.place) }))
      .sort((one, two) => one.away - two.away);
    const around = byDistance
      .filter(({ away }, index) => away < AROUND_cm || index < AROUND_least)
      .map(({ other }) => other);
    this.#around.set(place, around);
    return around;
  }
}

/** By probe: the share by which the watch takes what a source adds there to be uncertain. */
const uncertainAt = (place: Place3, points: readonly Point[]): Float64Array =>
  readingOf({ ...place, weights: place.weights.map(() => 1) }, points, Array(SHAPES).fill(1)).uncertain;
