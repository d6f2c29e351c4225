/** The only door to moist air, heat flow, sand and roots. SI units and °C; humidity is a fraction unless it says RH. */
export { mediumOfBed } from './bed-mixture.js';
export { DAY_s, GAS_CONSTANT_J_molK, WATER_MOLAR_MASS_kg_mol, YEAR_s, ZERO_CELSIUS_K } from './constants.js';
export {
  DAMPNESSES,
  type Dampness,
  type DampnessLimits,
  dampnessBetween,
  dampnessLimits,
  dampnessOf,
} from './dampness.js';
export { erf, erfc, fourTimesTwiceIntegratedErfc } from './error-function.js';
export { centreRemainderUnderFilm, type SlowestMode, slowestMode } from './film-cooling.js';
export type { Medium } from './medium.js';
export {
  dewPoint_C,
  relativeHumidityAt,
  saturationVapourPressure_Pa,
  vapourDensity_g_m3,
  vapourPressure_Pa,
  vapourPressureDeficit_Pa,
} from './moist-air.js';
export {
  dampingDepth_m,
  diffusivityFromAmplitude_m2_s,
  diffusivityFromLag_m2_s,
  waveAmplitudeShare,
  waveLag_s,
} from './periodic-wave.js';
export { growingSourceRise_C, type SourceHistory, sourceRise_C, steadySourceRise_C } from './point-source.js';
export {
  filmDepth_m,
  type PlaceBelowSurface,
  type Surface,
  sourceRiseBelowSurface_C,
} from './point-source-below-surface.js';
export { poreAirHumidity, WILTING_POINT_Pa, waterPotential_Pa } from './pore-air.js';
export {
  type Curing,
  HEAT_OF_CARBON_DIOXIDE_W_t,
  heatOfCarbonDioxide_W_t,
  RESPIRATION_AT_15_C_W_kg,
  RESPIRATION_Q10,
  ROOT_CONDUCTIVITY_W_mK,
  ROOT_DENSITY_kg_m3,
  ROOT_DIFFUSIVITY_m2_s,
  ROOT_HEAT_CAPACITY_J_kgK,
  respiration_W_kg,
} from './roots.js';
export {
  conductivityOfSand_W_mK,
  diffusivityOfSand_m2_s,
  dryConductivityOfSand_W_mK,
  kerstenNumber,
  saturatedConductivityOfSand_W_mK,
} from './sand-conductivity.js';
export {
  dryDensityOfSand_kg_m3,
  GRAIN_CAPACITY_J_m3K,
  GRAIN_DENSITY_kg_m3,
  heatCapacityOfSand_J_m3K,
  WATER_CAPACITY_J_m3K,
  waterContentFromMass,
} from './sand-grains.js';
export { DIMENSIONS, type Shape } from './shape.js';
export { centreRemainder, fourierNumber, meanRemainder } from './sudden-surface.js';
export { stepArrivedShare, temperatureAfterStep_C } from './surface-step.js';
export { uniformSourceRise_C } from './uniform-source.js';
export { waterDensity_kg_m3 } from './water.js';
export {
  effectiveSaturation,
  RETENTION_CURVES,
  type RetentionCurve,
  relativeConductivity,
  suctionAt_cm,
  waterContentAt,
} from './water-retention.js';
