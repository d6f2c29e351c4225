/** What a bed's probes would find, and where the next one helps most: the only door to this folder. */
export { ASKED, MOST_BED_L, MOST_PROBES } from './asking.js';
export { coverageOf } from './coverage.js';
export type { BedShape } from './learned.js';
export { enoughProbes, nextProbe, type OnPlaced } from './next-probe.js';
export { shadeStands, standingIn } from './standing.js';
export { answerOf, type CoverageAnswer, type CoverageTask } from './task.js';
export {
  BLIND,
  type BlindSpot,
  type Coverage,
  type CoverageQuestion,
  FOUND,
  type PlaceChance,
  type ProbePlace,
} from './types.js';
