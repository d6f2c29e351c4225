/** Limits that sand is judged by. Each is a threshold: it has a name, a unit, a default and the honest source of that. */
import { type Threshold, threshold } from './threshold-table.js';

export const SAND_LIMITS = {
  sand_loss_most_percent: threshold(
    '% of the sample',
    2,
    [0.1, 5],
    'judgement: balances in the field show whole grams; ASTM C136 takes 0.3 % for acceptance (clause 8.7, seen in copies)',
    'how far what lay on the sieves and in the pan may sum up to something else than the sample',
  ),
  sand_fines_most_percent: threshold(
    '% by mass',
    3,
    [0.5, 12],
    'judgement: no published limit; washed sand has 2 to 3 % of fines',
    'share finer than 0.075 mm above which sand is too dirty',
  ),
  sand_median_least_mm: threshold(
    'mm',
    0.25,
    [0.0625, 2],
    'judgement: no published limit; medium sand begins there (Udden-Wentworth scale, published)',
    'median grain below which sand is too fine',
  ),
  sand_median_most_mm: threshold(
    'mm',
    1,
    [0.25, 4],
    'judgement: no published limit; very coarse sand begins there (Udden-Wentworth scale, published)',
    'median grain above which sand is too coarse',
  ),
  sand_gravel_most_percent: threshold(
    '% by mass',
    5,
    [0, 50],
    'judgement: no published limit; stones wound roots',
    'share coarser than 4.75 mm above which sand is too coarse',
  ),
  sand_dry_enough_percent: threshold(
    '% of dry mass',
    0.5,
    [0.1, 2],
    'judgement: no published limit',
    'water up to which sand is dry enough to be filled in',
  ),
  sand_damp_from_percent: threshold(
    '% of dry mass',
    1,
    [0.2, 5],
    'judgement: no published limit; the same that warmth in a bed is read by',
    'water from which sand is damp and must not be filled in',
  ),
  sand_wet_from_percent: threshold(
    '% of dry mass',
    2,
    [0.5, 10],
    'judgement: no published limit; the same that warmth in a bed is read by',
    'water from which sand is wet and begins to sprout and rot roots',
  ),
  sand_constant_mass_percent: threshold(
    '% of the sample',
    0.1,
    [0.01, 1],
    'from memory: ASTM D4959 and C566 ask for 0.1 %',
    'change from one weighing to the next up to which a sample is held to be dried out',
  ),
  sand_oven_uncertainty_percent: threshold(
    '% of the water found, k = 1',
    2.7,
    [0.1, 50],
    'from memory: single-operator coefficient of variation of ASTM D2216',
    'uncertainty of drying in an oven, beside that of the balance',
  ),
  sand_pan_uncertainty_percent: threshold(
    '% of the water found, k = 1',
    10,
    [0.1, 50],
    'judgement: grains jump out, and what is organic burns away',
    'uncertainty of drying in a pan, beside that of the balance',
  ),
  sand_warm_above_C: threshold(
    '°C',
    2,
    [0.2, 15],
    'judgement: a sound store is 1 to 4 °C warmer in the middle by its roots alone (computed); sand must not add to that',
    'how far sand may be above the mean of the shade when it is filled in',
  ),
  sand_evening_h: threshold(
    'h',
    12,
    [2, 24],
    'judgement: from the heat of the day to the next cool hours',
    'how long cooling may take to be done by waiting until evening',
  ),
} as const satisfies Record<string, Threshold>;

/** Limits of which the first must not be above the second. */
export const SAND_ORDERED = [
  ['sand_median_least_mm', 'sand_median_most_mm'],
  ['sand_dry_enough_percent', 'sand_damp_from_percent'],
  ['sand_damp_from_percent', 'sand_wet_from_percent'],
] as const satisfies readonly (readonly [keyof typeof SAND_LIMITS, keyof typeof SAND_LIMITS])[];
