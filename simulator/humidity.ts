/**
 * Humidity of the air between the grains at a probe.
 *
 * Sound roots keep it at 80 to 95 %RH (computed from the water that they lose); wet sand has 98 to 100 (Kelvin
 * relation, computed); near a wet front vapour comes through the sand before the water does.
 */

import type { SandAt } from './probe-points.js';
import { normal, type Random } from './random.js';

/** Air-dry sand as it is filled in, and where sound roots bring it. Judgement within the range above. */
const FILLED_RH = 68;
const SOUND_RH = 86;

/** %RH. How far a place departs from that, and for how long. Judgement. */
const PLACE_DEVIATION_RH = 2;
const WAVER_DEVIATION_RH = 0.8;
const WAVER_days = 4;

/** Share of the vapour's difference that is left a distance from wet sand, m. Judgement. */
const VAPOUR_REACH_m = 0.08;

/** How fast the air follows: sound roots slowly, vapour from wet sand within a day, water within an hour or two; at once in the open. h. */
const FOLLOWS_h = { roots: 60, vapour: 24, water: 1.5, open: 0.3 } as const;

export class PoreAir {
  readonly #random: Random;
  readonly #sound_RH: number;
  #waver_RH = 0;
  #now_RH = FILLED_RH;

  constructor(random: Random) {
    this.#random = random;
    this.#sound_RH = SOUND_RH + PLACE_DEVIATION_RH * normal(random);
  }

  /** Goes on by a time; %RH at its end. */
  next(sand: SandAt, hours: number): number {
    const kept = Math.exp(-hours / 24 / WAVER_days);
    this.#waver_RH =
      kept * this.#waver_RH + Math.sqrt(1 - kept * kept) * WAVER_DEVIATION_RH * normal(this.#random);
    const sound_RH = Math.min(93, this.#sound_RH + this.#waver_RH);
    if (sand.air_RH !== undefined) return this.#follow(sand.air_RH, FOLLOWS_h.open, hours);
    const near = sand.wet ? 1 : Math.max(sand.damp, Math.exp(-sand.fromWet_m / VAPOUR_REACH_m));
    const target_RH = sound_RH + (99.8 - sound_RH) * near;
    const follows_h = sand.wet ? FOLLOWS_h.water : near > 0.05 ? FOLLOWS_h.vapour : FOLLOWS_h.roots;
    return this.#follow(target_RH, follows_h, hours);
  }

  #follow(target_RH: number, follows_h: number, hours: number): number {
    this.#now_RH += (target_RH - this.#now_RH) * (1 - Math.exp(-hours / follows_h));
    return this.#now_RH;
  }
}
