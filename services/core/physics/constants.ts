/** Constants that several laws share. */

/** 0 °C in kelvin; exact by definition. */
export const ZERO_CELSIUS_K = 273.15;

/** Molar gas constant, J/(mol K); exact by definition of the SI units of 2019. */
export const GAS_CONSTANT_J_molK = 8.31446261815324;

/** Molar mass of water, kg/mol (standard atomic weights of hydrogen and oxygen). */
export const WATER_MOLAR_MASS_kg_mol = 0.01801528;

/** One day, s: the period of the daily wave. */
export const DAY_s = 86_400;

/** One mean year of 365.25 days, s: the period of the yearly wave. */
export const YEAR_s = 365.25 * DAY_s;
