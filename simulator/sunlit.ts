/** A probe in the shade that the sun reaches after all, for some hours of the day: which, depends on what gives the shade. */
import { type Random, randomFor } from './random.js';
import { type Hour, sunHeight } from './weather.js';

/** Middle of those hours: in the morning or in the afternoon; and how far to either side they reach, h. Judgement. */
const MIDDLES_h = [8.5, 15.5] as const;
const MIDDLE_SPREAD_h = 1;
const REACH_h = 2;

/** Below so much of the noon sun's height nothing is reached. */
const LOW = 0.1;

export class Sunlit {
  readonly #most_C: number;
  readonly #middle_h: number;

  /** @param most_C how much too warm it is at the most */
  constructor(most_C: number, probe: string, seed: number) {
    const random: Random = randomFor(seed, 'sunlit', probe);
    this.#most_C = most_C;
    this.#middle_h = MIDDLES_h[random() < 0.5 ? 0 : 1] + MIDDLE_SPREAD_h * (2 * random() - 1);
  }

  /** @param hour of the day, 0 to 24 */
  warmer_C(hour: number, { sun }: Hour): number {
    const away = Math.abs(hour - this.#middle_h) / REACH_h;
    const height = sunHeight(hour);
    if (!(away < 1 && height > LOW)) return 0;
    return this.#most_C * Math.cos((Math.PI / 2) * away) ** 2 * Math.min(1, sun / height);
  }
}
