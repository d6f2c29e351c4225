/** One line of a file of calibration pairs. */
import { SandlarderError } from '../errors.js';
import {
  CALIBRATED_QUANTITIES,
  type CalibratedQuantity,
  type CalibrationPoint,
} from '../model/calibration.js';
import type { CsvRecord } from '../model/csv-lines.js';
import { ID_PATTERN } from '../model/id.js';
import { STORED_UNIT } from '../model/quantity.js';
import { parseTime } from '../model/time.js';
import { numberOf, PAIR_UNITS, type PairColumn, type PairFormat, type PairUnit } from './pair-columns.js';
import { pointProblem } from './point.js';

export interface Pair {
  /** Of the file, from 1. */
  readonly line: number;
  readonly probe?: string;
  readonly quantity: CalibratedQuantity;
  /** In °C or %RH. */
  readonly point: CalibrationPoint;
}

/** What holds where a line does not say it. */
export interface PairDefaults {
  readonly quantity?: CalibratedQuantity;
  /** k = 1, in the line's unit. */
  readonly referenceUncertainty?: number;
}

/** The pair, or what was expected of the line and what was there. */
export function pairOf(record: CsvRecord, format: PairFormat, defaults: PairDefaults): Pair | string {
  try {
    return new PairLine(record, format).pair(defaults);
  } catch (error) {
    if (error instanceof SandlarderError) return error.message;
    throw error;
  }
}

const bad = (message: string): SandlarderError => new SandlarderError('BAD_REQUEST', message);

class PairLine {
  readonly #record: CsvRecord;
  readonly #format: PairFormat;

  constructor(record: CsvRecord, format: PairFormat) {
    this.#record = record;
    this.#format = format;
  }

  pair(defaults: PairDefaults): Pair {
    this.#requireFields();
    const { quantity, value, difference } = this.#unit(defaults.quantity);
    const at = this.#time();
    const temperature_C = this.#number('temperature');
    const point: CalibrationPoint = {
      ...(at === undefined ? {} : { at }),
      indicated: value(this.#needed('indicated')),
      reference: value(this.#needed('reference')),
      referenceUncertainty: difference(this.#uncertainty(defaults.referenceUncertainty)),
      ...(temperature_C === undefined ? {} : { temperature_C }),
      source: 'file',
    };
    const problem = pointProblem(point, quantity);
    if (problem !== undefined) throw bad(problem);
    const probe = this.#probe();
    return { line: this.#record.line, ...(probe === undefined ? {} : { probe }), quantity, point };
  }

  #requireFields(): void {
    const { fields, fault } = this.#record;
    const { places, separator } = this.#format;
    if (fault !== undefined) throw bad(fault);
    if (fields.length === places.size) return;
    const hint =
      fields.length > places.size && separator === ','
        ? '; decimals with a comma need semicolons between the fields'
        : '';
    throw bad(`expected ${places.size} fields as in the header, got ${fields.length}${hint}`);
  }

  /** Undefined for a column that the file lacks, and for an empty field. */
  #text(column: PairColumn): string | undefined {
    const place = this.#format.places.get(column);
    const text = place === undefined ? '' : (this.#record.fields[place] ?? '').trim();
    return text === '' ? undefined : text;
  }

  #number(column: PairColumn): number | undefined {
    const text = this.#text(column);
    if (text === undefined) return undefined;
    const { mark } = this.#format;
    const value = numberOf(text, mark);
    if (value === undefined)
      throw bad(
        `${column}: expected a number with a decimal ${mark === '.' ? 'point' : 'comma'}, got "${text}"`,
      );
    return value;
  }

  #needed(column: PairColumn): number {
    const value = this.#number(column);
    if (value === undefined) throw bad(`${column}: expected a number, got nothing`);
    return value;
  }

  #uncertainty(usual: number | undefined): number {
    const expanded = this.#number('uncertainty_k2');
    const value = this.#number('uncertainty') ?? (expanded === undefined ? usual : expanded / 2);
    if (value === undefined) throw bad('uncertainty: expected a number, got nothing');
    if (!(value > 0)) throw bad(`uncertainty: expected more than 0, got ${expanded ?? value}`);
    return value;
  }

  #time(): number | undefined {
    const text = this.#text('time');
    const at = text === undefined ? undefined : parseTime(text);
    if (text !== undefined && at === undefined)
      throw bad(`time: expected an RFC 3339 time such as 2026-05-04T08:00:00Z, got "${text}"`);
    return at;
  }

  #probe(): string | undefined {
    const text = this.#text('probe');
    if (text !== undefined && !ID_PATTERN.test(text))
      throw bad(`probe: expected 1 to 32 of a-z, 0-9 and "-", got "${text}"`);
    return text;
  }

  #unit(usual: CalibratedQuantity | undefined): PairUnit {
    const quantity = this.#quantity();
    const name = this.#unitName();
    const meant = quantity ?? usual;
    if (name === undefined && meant === undefined) throw bad('expected a unit or a quantity, got neither');
    const unit = name ?? STORED_UNIT[meant as CalibratedQuantity];
    const rule = PAIR_UNITS.get(unit);
    if (rule === undefined) throw bad(`unit: expected ${[...PAIR_UNITS.keys()].join(', ')}, got "${unit}"`);
    if (quantity !== undefined && rule.quantity !== quantity)
      throw bad(`unit: expected one of ${quantity}, got ${unit}`);
    return rule;
  }

  /** Of probe and reference alike. */
  #unitName(): string | undefined {
    const ofBoth = this.#text('unit');
    const ofProbe = this.#text('indicated_unit') ?? ofBoth;
    const ofReference = this.#text('reference_unit') ?? ofBoth;
    if (ofProbe !== ofReference)
      throw bad(
        `expected probe and reference in one unit, got ${ofProbe ?? 'none'} for the probe and ${ofReference ?? 'none'} for the reference`,
      );
    return ofProbe;
  }

  #quantity(): CalibratedQuantity | undefined {
    const text = this.#text('quantity');
    const quantity = CALIBRATED_QUANTITIES.find((name) => name === text);
    if (text !== undefined && quantity === undefined)
      throw bad(`quantity: expected ${CALIBRATED_QUANTITIES.join(' or ')}, got "${text}"`);
    return quantity;
  }
}
