/**
 * What the first watch works with beside the thresholds of a site or bed. Each with its unit, and the source of
 * the value: none of them is published as such.
 */
export const PARAMETERS = {
  /** h. One day, so that the daily wave of the weather drops out of a mean. */
  mean_h: 24,
  /** h with data that a mean of `mean_h` needs. Judgement. */
  meanNeeds_h: 18,
  /**
   * days. Memories of the shade that a probe may follow: 0.6 to 1.0 m of dry sand takes 2 to 6 days (computed),
   * moist sand less, the ground under a pit more. Judgement.
   */
  shadeMemories_days: [1, 1.7, 2.8, 4.5, 7, 12],
  /** days. Memory of the ground around: what a probe does not follow faster it follows with this. Judgement. */
  groundMemory_days: 30,
  /**
   * Shares of the faster memory, the likeliest first; the rest is the ground's, so that in the long run sand follows
   * all of a season. Above 1: roots breathe faster in warm sand (Q10 of 2 to 2.2, from memory). Judgement.
   */
  shadeShares: [1, 0.8, 1.2, 0.6, 0.4],
  /** How much less must be left unexplained for each step to a less likely share, as a share. Judgement. */
  shareNeeds: 0.15,
  /** h of daily means that the shade's slow mean needs. Judgement. */
  shadeNeeds_h: 72,
  /** h without a shade reading after which the slow mean is no longer believed. Judgement. */
  shadeSilent_h: 48,
  /** days after filling, placing or repacking that are no measure of a sound bed. Judgement. */
  settling_days: 3,
  /**
   * days. The baseline ends this long before the day that is judged, so that a source which begins is not learned:
   * at 20 to 30 cm half of its warmth takes 3 to 7 days to arrive in dry sand (computed).
   */
  baselineLag_days: 5,
  /** days that a level is taken from at the most, and at the least. Judgement. */
  baselineRecent_days: 17,
  baselineLeast_days: 5,
  /** days that a probe's own history needs before its trend is carried on: fewer hold little but weather. Judgement. */
  trendNeeds_days: 30,
  /** sound days that a probe keeps to learn from, and days after which one is no longer believed. Judgement. */
  learnedMost_days: 45,
  learnedOldest_days: 60,
  /** °C. Least half width of the band of a sound bed: the accuracy of a good cheap probe is 0.2 to 0.5 °C (from memory). */
  bandLeast_C: 0.3,
  /** Half width of the band in standard deviations, these taken robustly from the baseline's days. Judgement. */
  bandDeviations: 3,
  /**
   * Times the difference to the neighbours that an excess is believed: a source warms them too, by about a third at
   * three times the distance (1/r, computed). Judgement.
   */
  localTimes: 1.5,
  /** Share of an excess that counts where the neighbours have it too: the weather, or rot in many places. Judgement. */
  aloneShare: 0.4,
  /** days over which the rise of the excess is taken: 3 to 7 is right for the delay of dry sand (computed). */
  rate_days: 3,
  /** h with an excess that a rise needs. Judgement. */
  rateNeeds_h: 48,
  /** h for which a rise must hold before it counts. Judgement. */
  rateHeld_h: 24,
  /** h below the clearing level before a condition ends. Judgement. */
  clear_h: 24,
  /** Clearing level of heating, as a share of the threshold that raised it. Judgement. */
  clearShare: 0.5,
  /** %RH below the threshold at which damp clears. Judgement: more than the noise of a cheap probe. */
  dampClear_RH: 2,
  /** h in a row of less than the threshold that do not yet break off what is developing. Judgement. */
  dip_h: 3,
  /** h without data after which what was developing begins anew. Judgement. */
  gap_h: 24,
  /** h for which judgement is held after the bed was opened: the sand is disturbed, and the mean must be fresh. */
  held_h: 24,
  /**
   * cm. How far from the probe the source can be: a probe of the ±0.5 °C class sees 1 W in dry sand at 20 to 30 cm
   * (computed).
   */
  radius_cm: 25,
} as const;
