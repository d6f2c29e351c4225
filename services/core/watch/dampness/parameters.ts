/**
 * What the watch for damp works with beside the thresholds of a site or bed. Each with its unit and the source of
 * its value; nobody has published limits for a sand store.
 */
export const DAMPNESS = {
  /** h of humidity that a level is the median of, and h with data that it needs. One day; judgement. */
  level_h: 24,
  levelNeeds_h: 12,
  /** h over which the trend of humidity is taken: 3 to 5 days see a rise of points within days. Judgement. */
  trend_h: 96,
  /** h of a mean that enters the trend, and how many means it needs. Judgement. */
  trendBin_h: 6,
  trendNeeds: 12,
  /** One-sided confidence of 95 % that humidity rises. */
  trendConfidence: 0.9,
  /** days ahead that the trend is carried on: the time that 97 %RH may last, unnoticed, at the most. */
  forecast_days: 3,
  /** %RH under damp_check_RH from which a forecast counts: sound sand reaches 93 by itself (measured). */
  forecastFrom_RH: 5,
  /** days kept of a probe's own level; the newest are no measure of a sound bed, and so many are needed. Judgement. */
  learned_days: 28,
  learnedLag_days: 3,
  learnedNeeds_days: 5,
  /** days after filling or repacking in which roots wet their sand, and those that are not even learned. Judgement. */
  wettedByRoots_days: 14,
  unlearned_days: 7,
  /** days after an opening, or after a probe was placed, in which a rise says nothing. Judgement. */
  settling_days: 7,
  /** %RH. Least scatter of a probe's daily level, and how many times its scatter a rise must be. Judgement. */
  spreadLeast_RH: 0.6,
  spreads: 3,
  /** %RH by which a sensor creeps above 80 %RH (data sheets of two families: +3 after 60 h, reversible). */
  creep_RH: 3,
  creepFrom_RH: 80,
  /** h for which a rise of the daily level must hold: a moist day lifts the level for half a day. Judgement. */
  early_h: 18,
  /** %RH below its threshold at which damp clears, and h for which it must stay there. Judgement. */
  clear_RH: 2,
  clear_h: 24,
  /** h in a row under the threshold that do not yet break off what is developing, and h of silence that do. */
  dip_h: 3,
  gap_h: 24,
  /** cm. How far from the probe the damp place is looked for: vapour reaches about 8 cm, a hand 25. Judgement. */
  radius_cm: 25,

  /** h of temperature that the daily wave is fitted to, and h with data that it needs. */
  wave_h: 120,
  waveNeeds_h: 84,
  /** h between two fits. */
  fitEvery_h: 6,
  /** °C. Least amplitude of the reference's daily wave: a smaller one, under cloud, tells too little. Judgement. */
  referenceAmplitude_C: 1.5,
  /** °C. Least standard uncertainty of an amplitude: the steps in which probes tell their values. */
  amplitudeLeast_C: 0.01,
  /** Amplitudes under so many of their standard uncertainties are bounds, not measurements. Judgement. */
  measurable: 2.5,
  /** cm. Least difference of depth of two probes that are compared: about one damping depth of dry sand. Judgement. */
  pairLeast_cm: 8,
  /** cm. Standard uncertainty of a depth as written down, sand that settles included. Judgement. */
  depth_cm: 2.5,
  /**
   * What lies between the air outside and the sand, as the logarithm of the amplitude that is left and as the lag in
   * radians: a film of still air, 8 W/(m2 K), over dry sand of 0.24 W/(m K) (computed); boards of 25 mm and the film,
   * 3.1 W/(m2 K), and the hut around a box, which follows within hours (computed, from memory). Roof and sun besides.
   */
  beside: {
    'stepped-pit': { attenuation: 0.39, lag: 0.285, deviation: 0.35 },
    box: { attenuation: 1, lag: 0.7, deviation: 0.8 },
  },
  /** What walls and the bed's unevenness make of the way between two probes, in the same measure. Judgement. */
  pairDeviation: 0.2,
  /** Part of the way, relative, that is not known to stay as it was while learned. Judgement. */
  steadiness: 0.05,
  /** Fits that the dry way is learned from, at least and at most (ten days), and days by when it ends. */
  learnedFitsLeast: 16,
  learnedFitsMost: 40,
  learnedFitsUntil_days: 30,
  /** Share of roots in a bed (one part to four of sand, computed from its layers), and porosity of loose sand. */
  rootShare: 0.2,
  porosity: 0.4,
  /** How far sound dry beds lie apart, as a logarithm of diffusivity. Judgement. */
  drySpread: 0.3,
  /** Factor by which the diffusivity must have risen above the learned one; 2.5 % of water doubles it (published abstract). */
  riseFactor: 1.5,
  /** Probability of damp sand from which the swing asks for a look and under which it is over, and of a rise above what was learned. Judgement. */
  likely: 0.75,
  unlikely: 0.5,
  sureRise: 0.9,
  /** cm. Depth from which the share of the outdoor swing says something by itself (computed: dry 6.5 % at 20 cm). */
  shareDepth_cm: 20,
  /** m2/s. No sand conducts so well: densely packed moist quartz sand has 1.3e-6 (computed). */
  mostOfSand_m2_s: 3e-6,
  /**
   * A change from hour to hour that is no wave and no weather: sand or probe were handled. So many times the usual,
   * and °C at the least. Judgement.
   */
  handledTimes: 8,
  handledLeast_C: 0.8,
  /** Share of the swing outside that no buried probe shows: one that lies bare does. Judgement. */
  bareShare: 0.6,
  /** h for which the swing must say so, and be gone. Judgement. */
  swing_h: 24,
  swingClear_h: 48,

  /** %RH that a wet front has reached within two hours, at the least: on its way to 98, less the error of a cheap probe. */
  frontReaches_RH: 90,
  /** min at the end of an hour whose lowest value is taken for where the humidity has come to. Judgement. */
  latest_min: 15,
  /** h within which a front shows, and h before that it is compared with. */
  front_h: 2,
  frontBefore_h: 24,
  frontNeeds_h: 12,
  /** Times the hourly scatter that a front must rise. Judgement. */
  frontScatters: 6,
  /** %RH that a failing sensor sits at, and what it may move there. */
  full_RH: 99.9,
  fullScatter_RH: 0.15,
  /** Share of the rise that a failing sensor makes in a single sample. */
  atOnce: 0.85,
  /** °C. Change of temperature that only water brings, and times the usual scatter. Judgement. */
  waterChange_C: 0.3,
  waterScatters: 4,
  /** h after a jump that tell what it was: one that comes later in its hour is judged in the next. Judgement. */
  telling_h: 0.5,
  /** %RH that the mean of an hour with scatter must have for the sensor to be held alive at saturation. */
  aliveFrom_RH: 93,
  /** h with scatter at saturation after which a sensor is held to be alive. Judgement. */
  alive_h: 6,
  /** days within which another probe that gets wet settles a doubt: water needs days from probe to probe (simulated). */
  follows_days: 10,
  /** h of ordinary values after which a wetting is over, and a doubt about a probe; h of silence that end a doubt. */
  frontClear_h: 48,
  brokenClear_h: 24,
  brokenSilent_h: 48,
  /** h for which a step of temperature alone stands: there is nothing that would say that it is over. */
  stepStands_h: 72,
  /**
   * °C. Least and greatest step of temperature within two hours that is taken for water (through sand it comes within
   * a few degrees of it), times the usual change, and the share of it by which the next hour still moves. Judgement.
   */
  step_C: 0.8,
  stepMost_C: 5,
  stepTimes: 3,
  stepFlat: 0.35,
  /** h within which other probes must not have moved as well: then the bed was handled. */
  stepAlone_h: 4,
  stepDepth_cm: 10,
  /** Samples in three hours that are needed to see how a step came. Judgement. */
  stepSamples: 7,
  /** h after handling in which no front is looked for: sand and probes were in the air. Judgement. */
  handled_h: 12,
  /** A probe that shows the air outside lies bare: within °C and %RH of it, and it was further off before. */
  air: { within_C: 1, within_RH: 8, before_C: 1.5 },
  /** min between samples kept for the next hour, and how many are kept. */
  tailSpacing_min: 5,
  tail: 24,

  /** h for which the dew point inside must lie above the coldest sand: vapour needs a day or more through 20 cm. */
  inside_h: 24,
  /** %RH. Error of a cheap probe where quality states none (data sheets: 2 to 3). */
  humidityError_RH: 3,
  /** %RH under which a probe says that the sand there is not wet. Judgement. */
  dryAir_RH: 90,
  /** °C under the margin at which condensation clears. Judgement. */
  condensationClear_C: 0.5,
} as const;
