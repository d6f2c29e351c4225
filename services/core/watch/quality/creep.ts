/**
 * How far a humidity can be believed: a cheap sensor creeps upward while it is kept near saturation, and back in
 * drier air. Linear in time both ways; the data sheets give only the sum.
 */
import { QUALITY } from './limits.js';

/** Hours of creep gathered, after one more hour of this mean humidity, %RH. */
export function gatherCreep(creep_h: number, mean_RH: number): number {
  if (mean_RH > QUALITY.creepFrom_RH) return Math.min(QUALITY.creep_h, creep_h + 1);
  return Math.max(0, creep_h - 1);
}

function accuracy_RH(mean_RH: number): number {
  const { accuracy_RH: least, accuracyFull_RH: most, accuracyFrom_RH: from } = QUALITY;
  return mean_RH > from ? least + ((most - least) * (mean_RH - from)) / (100 - from) : least;
}

/** Half width within which the humidity lies, %RH: the sensor's accuracy and its creep, as independent errors. */
export const humidityUncertainty_RH = (creep_h: number, mean_RH: number): number =>
  Math.hypot(accuracy_RH(mean_RH), (QUALITY.creep_RH * creep_h) / QUALITY.creep_h);
