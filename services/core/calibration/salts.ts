/**
 * Relative humidity over saturated salt solutions, the fixed points of a humidity bench.
 *
 * Source: L. Greenspan, J. Res. Natl. Bur. Stand. 81A (1977) 89-96, used by OIML R 121 and ASTM E104. Polynomials in
 * °C where they were seen; magnesium nitrate and sodium bromide are read off the paper's table, linearly between its
 * rows. The signs of the second coefficients of lithium chloride and potassium carbonate are the plus that gives the
 * paper's own table back: stored copies with a minus (10.89 %RH for lithium chloride at 25 °C) are wrong.
 *
 * The paper's uncertainties (from memory) are taken as expanded, k = 2 (judgement: the paper does not say it in those
 * words), between 15 and 30 °C. From 10 to 15 and 30 to 35 °C one and a half times the larger of the two ends is
 * taken (judgement). For potassium nitrate the paper and the CRC Handbook disagree by 1.7 %RH at 25 °C, so that the
 * CRC's 2 % (of its value) is what is claimed, over the whole range. For magnesium nitrate the two agree at 25 °C and
 * are 1.6 %RH apart at 15 °C; the paper is kept, since Wexler & Hasegawa 1954 measured its slope.
 *
 * All of it holds for a pure salt, as slush with undissolved salt, in a closed jar that has come to rest.
 */
import { requireInDomain } from '../errors.js';
import { relativeHumidityAt } from '../physics/index.js';
import type { CautionKey } from './bench-cautions.js';

export type SaltId =
  | 'lithium-chloride'
  | 'magnesium-chloride'
  | 'potassium-carbonate'
  | 'magnesium-nitrate'
  | 'sodium-bromide'
  | 'sodium-chloride'
  | 'potassium-chloride'
  | 'potassium-nitrate'
  | 'potassium-sulfate';

type AtRows = readonly [at15: number, at20: number, at25: number, at30: number];

/** %RH for powers of °C, or %RH at 15, 20, 25 and 30 °C. */
type Law = { readonly coefficients: readonly number[] } | { readonly rows: AtRows };

export interface Salt {
  readonly id: SaltId;
  readonly name: string;
  readonly formula: string;
  readonly cautions: readonly CautionKey[];
  /** °C: where this bench uses it. */
  readonly least_C: number;
  readonly greatest_C: number;
  readonly law: Law;
  /** %RH, k = 2, at 15, 20, 25 and 30 °C. */
  readonly expanded: AtRows;
}

const ROW_LEAST_C = 15;
const ROW_GREATEST_C = 30;
const ROW_STEP_C = 5;

/** What the uncertainty grows by beyond the table: at 10 °C the paper has 1.1 to 1.2 times (from memory). Judgement. */
const BEYOND_TABLE = 1.5;

/** Greenspan's ranges (from memory) all hold 10 to 35 °C but for potassium carbonate, which ends at 30 °C. */
const POLYNOMIAL_C = { least_C: 10, greatest_C: 35 };
const TABLE_C = { least_C: ROW_LEAST_C, greatest_C: ROW_GREATEST_C };

export const SALTS: readonly Salt[] = [
  {
    id: 'lithium-chloride',
    name: 'lithium chloride',
    formula: 'LiCl',
    cautions: ['lithium-chloride'],
    ...POLYNOMIAL_C,
    law: { coefficients: [11.2323, 0.00824245, -0.21489e-3] },
    expanded: [0.35, 0.31, 0.27, 0.24],
  },
  {
    id: 'magnesium-chloride',
    name: 'magnesium chloride',
    formula: 'MgCl2',
    cautions: [],
    ...POLYNOMIAL_C,
    law: { coefficients: [33.6686, -0.00797397, -0.108988e-2] },
    expanded: [0.21, 0.18, 0.16, 0.14],
  },
  {
    id: 'potassium-carbonate',
    name: 'potassium carbonate',
    formula: 'K2CO3',
    cautions: [],
    least_C: POLYNOMIAL_C.least_C,
    greatest_C: ROW_GREATEST_C,
    law: { coefficients: [43.1315, 0.00147523] },
    expanded: [0.33, 0.33, 0.39, 0.5],
  },
  {
    id: 'magnesium-nitrate',
    name: 'magnesium nitrate',
    formula: 'Mg(NO3)2',
    cautions: ['nitrate'],
    ...TABLE_C,
    law: { rows: [55.87, 54.38, 52.89, 51.4] },
    expanded: [0.27, 0.23, 0.22, 0.24],
  },
  {
    id: 'sodium-bromide',
    name: 'sodium bromide',
    formula: 'NaBr',
    cautions: [],
    ...TABLE_C,
    law: { rows: [60.68, 59.14, 57.57, 56.03] },
    expanded: [0.51, 0.44, 0.4, 0.38],
  },
  {
    id: 'sodium-chloride',
    name: 'sodium chloride (table salt without additives)',
    formula: 'NaCl',
    cautions: [],
    ...POLYNOMIAL_C,
    law: { coefficients: [75.5164, 0.0398321, -0.265459e-2, 0.2848e-4] },
    expanded: [0.18, 0.14, 0.12, 0.11],
  },
  {
    id: 'potassium-chloride',
    name: 'potassium chloride',
    formula: 'KCl',
    cautions: [],
    ...POLYNOMIAL_C,
    law: { coefficients: [88.619, -0.19334, 0.899706e-3] },
    expanded: [0.33, 0.29, 0.26, 0.25],
  },
  {
    id: 'potassium-nitrate',
    name: 'potassium nitrate',
    formula: 'KNO3',
    cautions: ['nitrate'],
    ...POLYNOMIAL_C,
    law: { coefficients: [96.3361, 0.0112371, -0.484514e-2] },
    // 2 % of 95.4, 94.6, 93.6 and 92.3 %RH, rounded up.
    expanded: [2, 2, 2, 2],
  },
  {
    id: 'potassium-sulfate',
    name: 'potassium sulfate',
    formula: 'K2SO4',
    cautions: [],
    ...POLYNOMIAL_C,
    law: { coefficients: [98.7792, -0.0590502] },
    expanded: [0.63, 0.53, 0.45, 0.4],
  },
];

export interface SaltHumidity {
  readonly humidity_RH: number;
  /** %RH, k = 1: of the published value alone. */
  readonly standardUncertainty_RH: number;
  /** %RH for each °C that solution and air are warmer, together. */
  readonly slope_RH_C: number;
  readonly source: string;
}

export interface SaltPoint {
  readonly humidity_RH: number;
  /** %RH, k = 1: the root of the sum of the squares of the contributions. */
  readonly standardUncertainty_RH: number;
  readonly contributions: {
    readonly published_RH: number;
    readonly temperature_RH: number;
    readonly probeDifference_RH: number;
  };
  readonly source: string;
}

/** ± °C that a probe may be warmer or colder than the salt in a closed jar in a still room. Judgement. */
const PROBE_DIFFERENCE_C = 0.1;

const CLAIMS: Readonly<Partial<Record<SaltId, string>>> = {
  'potassium-nitrate': 'the 2 % of the CRC Handbook, k = 2, since the two books disagree by 1.7 %RH',
};

/** The salt of an id. */
export function saltOf(id: SaltId): Salt {
  return SALTS.find((salt) => salt.id === id) as Salt;
}

/**
 * Humidity over the saturated solution when solution and air have one temperature.
 *
 * @param temperature_C within the salt's `least_C` and `greatest_C`
 * @throws SandlarderError OUT_OF_DOMAIN, with the salt and its range
 */
export function saltHumidity_RH(id: SaltId, temperature_C: number): SaltHumidity {
  const salt = saltOf(id);
  requireInDomain(`temperature of ${salt.name}, °C,`, temperature_C, salt.least_C, salt.greatest_C);
  const { law } = salt;
  const { value, slope } =
    'rows' in law ? between(law.rows, temperature_C) : polynomial(law.coefficients, temperature_C);
  return {
    humidity_RH: value,
    standardUncertainty_RH: expandedAt(salt, temperature_C) / 2,
    slope_RH_C: slope,
    source: sourceOf(salt, temperature_C),
  };
}

/**
 * The reference value of a salt jar with everything that makes it uncertain.
 *
 * @param temperatureUncertainty_C standard uncertainty of the jar's temperature, 0 to 5 °C
 * @param probeDifference_C the most that the probe may be warmer or colder than the solution, 0 to 2 °C: vapour
 * pressure is one all over the jar, saturation is not (0.1 °C is 0.47 %RH at 75 %RH and 20 °C). Rectangular
 * [JCGM 100 4.3.7]
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function saltPoint(
  id: SaltId,
  temperature_C: number,
  temperatureUncertainty_C: number,
  probeDifference_C: number = PROBE_DIFFERENCE_C,
): SaltPoint {
  requireInDomain('standard uncertainty of the temperature, °C,', temperatureUncertainty_C, 0, 5);
  requireInDomain('difference between probe and salt, °C,', probeDifference_C, 0, 2);
  const { humidity_RH, standardUncertainty_RH, slope_RH_C, source } = saltHumidity_RH(id, temperature_C);
  const contributions = {
    published_RH: standardUncertainty_RH,
    temperature_RH: Math.abs(slope_RH_C) * temperatureUncertainty_C,
    probeDifference_RH: (humidity_RH * halfSpan(temperature_C, probeDifference_C)) / Math.sqrt(3),
  };
  return {
    humidity_RH,
    standardUncertainty_RH: Math.hypot(...Object.values(contributions)),
    contributions,
    source,
  };
}

/** Half of what humidity spans, as a share, where a probe is this much colder to this much warmer than the salt. */
function halfSpan(salt_C: number, difference_C: number): number {
  return (
    (relativeHumidityAt(salt_C - difference_C, salt_C) - relativeHumidityAt(salt_C + difference_C, salt_C)) /
    2
  );
}

interface ValueAndSlope {
  readonly value: number;
  readonly slope: number;
}

function polynomial(coefficients: readonly number[], x: number): ValueAndSlope {
  let value = 0;
  let slope = 0;
  for (const coefficient of [...coefficients].reverse()) {
    slope = slope * x + value;
    value = value * x + coefficient;
  }
  return { value, slope };
}

/** Linear between the table's rows. */
function between(rows: AtRows, temperature_C: number): ValueAndSlope {
  const place = (temperature_C - ROW_LEAST_C) / ROW_STEP_C;
  const row = Math.min(Math.floor(place), rows.length - 2);
  const below = rows[row] as number;
  const rise = (rows[row + 1] as number) - below;
  return { value: below + rise * (place - row), slope: rise / ROW_STEP_C };
}

const isInTable = (temperature_C: number): boolean =>
  temperature_C >= ROW_LEAST_C && temperature_C <= ROW_GREATEST_C;

const isBeyond = (salt: Salt, temperature_C: number): boolean =>
  !isInTable(temperature_C) && CLAIMS[salt.id] === undefined;

function expandedAt(salt: Salt, temperature_C: number): number {
  if (isInTable(temperature_C)) return between(salt.expanded, temperature_C).value;
  const larger = Math.max(salt.expanded[0], salt.expanded[3]);
  return isBeyond(salt, temperature_C) ? BEYOND_TABLE * larger : larger;
}

function sourceOf(salt: Salt, temperature_C: number): string {
  const value = 'rows' in salt.law ? 'read between the rows of its table' : 'its polynomial';
  const claim = isBeyond(salt, temperature_C)
    ? `${BEYOND_TABLE} times its larger uncertainty of 15 and 30 °C, by judgement`
    : (CLAIMS[salt.id] ?? 'its uncertainty taken as k = 2');
  return `Greenspan 1977, ${salt.formula}: ${value}; ${claim}`;
}
