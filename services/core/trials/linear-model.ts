/**
 * Least squares of beds on terms that come one after the other: each term's sum of squares is what it adds to those
 * before it. Terms are coded so that the effects of one sum to nothing.
 */
import { triangleOf } from '../calibration/householder.js';
import { SandlarderError } from '../errors.js';
import { beyondRounding, moved, sumOf } from './moments.js';

export interface Term {
  readonly name: string;
  /** Of each bed, its level. */
  readonly levels: readonly string[];
}

export interface TermSquares {
  readonly name: string;
  readonly df: number;
  readonly squares: number;
}

export interface LinearFit {
  readonly terms: readonly TermSquares[];
  readonly residualDf: number;
  readonly residualSquares: number;
  readonly residuals: readonly number[];
  /** Of a term's level against another's, the estimated difference and its variance over that of a bed. */
  difference(term: string, from: string, to: string): { readonly estimate: number; readonly factor: number };
}

interface Coded {
  readonly names: readonly string[];
  readonly columns: readonly Float64Array[];
}

/** One column a level but the last, whose effect is what the others leave over. */
function codedOf({ levels }: Term): Coded {
  const names = [...new Set(levels)];
  const last = names.at(-1);
  const columns = names
    .slice(0, -1)
    .map((name) => Float64Array.from(levels, (level) => (level === name ? 1 : level === last ? -1 : 0)));
  return { names, columns };
}

/** The columns of two terms together: each of one times each of the other. */
const product = (one: Coded, other: Coded): Float64Array[] =>
  one.columns.flatMap((first) =>
    other.columns.map((second) => Float64Array.from(first, (value, row) => value * (second[row] as number))),
  );

/**
 * @param together pairs of terms whose interaction follows the terms, as `a:b`
 * @throws SandlarderError TOO_FEW_SAMPLES where terms cannot be told apart, or no bed is left over to tell the scatter
 */
export function fitTerms(
  values: readonly number[],
  terms: readonly Term[],
  together: readonly (readonly [string, string])[] = [],
): LinearFit {
  const coded = new Map(terms.map((term) => [term.name, codedOf(term)]));
  const parts = [
    ...terms.map(({ name }) => ({ name, columns: (coded.get(name) as Coded).columns })),
    ...together.map(([one, other]) => ({
      name: `${one}:${other}`,
      columns: product(coded.get(one) as Coded, coded.get(other) as Coded),
    })),
  ];
  const columns = [new Float64Array(values.length).fill(1), ...parts.flatMap((part) => part.columns)];
  if (!(values.length > columns.length))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `beds: expected more than the ${columns.length} that ${terms.map(({ name }) => name).join(' and ')} take up, got ${values.length}`,
    );
  const response = Float64Array.from(moved(values).values);
  const { inverse, turned } = turnedOf(columns, response, parts);
  const coefficients = inverse.map((row) => sumOf(row.map((value, at) => value * (turned[at] as number))));
  const residuals = [...response].map(
    (value, row) =>
      value - sumOf(columns.map((column, at) => (column[row] as number) * (coefficients[at] as number))),
  );
  return {
    terms: squaresOf(parts, turned),
    residualDf: values.length - columns.length,
    residualSquares: beyondRounding(sumOf(residuals.map((value) => value * value)), values),
    residuals,
    difference: (term, from, to) => {
      const { names } = coded.get(term) as Coded;
      const start =
        1 +
        parts
          .slice(
            0,
            parts.findIndex(({ name }) => name === term),
          )
          .flatMap((part) => part.columns).length;
      const weights = contrast(names, from, to, start, columns.length);
      const turnedWeights = columns.map((_, at) =>
        sumOf(weights.map((weight, row) => weight * (inverse[row]?.[at] as number))),
      );
      return {
        estimate: sumOf(weights.map((weight, at) => weight * (coefficients[at] as number))),
        factor: sumOf(turnedWeights.map((value) => value * value)),
      };
    },
  };
}

function turnedOf(
  columns: Float64Array[],
  response: Float64Array,
  parts: readonly { readonly name: string }[],
) {
  try {
    return triangleOf(columns, response);
  } catch (error) {
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `beds: expected ${parts.map(({ name }) => name).join(', ')} to be told apart, got a table in which one follows from the others`,
      { cause: error },
    );
  }
}

function squaresOf(
  parts: readonly { readonly name: string; readonly columns: readonly Float64Array[] }[],
  turned: readonly number[],
): TermSquares[] {
  let at = 1;
  return parts.map(({ name, columns }) => {
    const own = turned.slice(at, at + columns.length);
    at += columns.length;
    return { name, df: columns.length, squares: sumOf(own.map((value) => value * value)) };
  });
}

/** Weights of the coefficients that make the difference of two levels; the last level's effect is less the sum of the others. */
function contrast(
  names: readonly string[],
  from: string,
  to: string,
  start: number,
  length: number,
): number[] {
  const weights = new Array<number>(length).fill(0);
  const add = (name: string, sign: 1 | -1): void => {
    const at = names.indexOf(name);
    if (at === names.length - 1) {
      for (let other = 0; other < names.length - 1; other += 1)
        weights[start + other] = (weights[start + other] as number) - sign;
    } else weights[start + at] = (weights[start + at] as number) + sign;
  };
  add(to, 1);
  add(from, -1);
  return weights;
}
