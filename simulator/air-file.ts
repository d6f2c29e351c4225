/** Weather from a file of hourly air temperatures. */
import { readFileSync } from 'node:fs';
import { SandlarderError } from '../services/core/errors.js';
import { unread } from '../services/core/model/file-words.js';
import { type Hour, saturation_hPa } from './weather.js';

export interface AirFileOptions {
  /** Name of the column of air temperatures, °C. */
  readonly column: string;
  /** Added to every temperature, °C: to take a cool place's year to a warmer one. */
  readonly warmer_C: number;
}

export const AIR_FILE_DEFAULTS: AirFileOptions = { column: 'temperature', warmer_C: 0 };

/** Air that somebody measured lies between these, °C. */
const BELIEVABLE_C = [-60, 60] as const;

/**
 * Reads hourly air temperatures from a CSV with a heading line.
 *
 * @throws SandlarderError WRONG_USAGE with the file, the line, what was expected and what was there
 */
export function readAirFile(file: string, options: AirFileOptions = AIR_FILE_DEFAULTS): number[] {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    throw new SandlarderError('WRONG_USAGE', unread(file, error));
  }
  const [heading = '', ...lines] = text.split(/\r\n|\r|\n/).filter((line) => line.trim() !== '');
  const at = heading.split(',').findIndex((name) => name.trim() === options.column);
  if (at < 0)
    throw new SandlarderError(
      'WRONG_USAGE',
      `${file}: expected a column "${options.column}" in the heading, got ${heading.slice(0, 80)}`,
    );
  if (!(lines.length >= 24))
    throw new SandlarderError('WRONG_USAGE', `${file}: expected at least 24 hours, got ${lines.length}`);
  return lines.map((line, index) => {
    const field = line.split(',')[at]?.trim() ?? '';
    const value = field === '' ? Number.NaN : Number(field);
    if (!(value >= BELIEVABLE_C[0] && value <= BELIEVABLE_C[1]))
      throw new SandlarderError(
        'WRONG_USAGE',
        `${file}: line ${index + 2}: expected a temperature from ${BELIEVABLE_C[0]} to ${BELIEVABLE_C[1]} °C, got ${JSON.stringify(field)}`,
      );
    return value + options.warmer_C;
  });
}

export const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Ground and sand have followed the air of about so long when a season begins, h. Judgement. */
const BEFORE_h = 14 * 24;

/** How warm the sand is filled in and the upper ground is, °C: the mean of the file's first two weeks. */
export const startOf = (temperatures_C: readonly number[]): number =>
  meanOf(temperatures_C.slice(0, BEFORE_h));

/**
 * The file's hours one after the other, from its beginning again at its end. The first is taken for midnight: only
 * the sun on the ground goes by that.
 *
 * @param dewPoint_C of the air, °C: the file has no humidity
 */
export function* weatherFrom(temperatures_C: readonly number[], dewPoint_C: number): Generator<Hour> {
  for (let at = 0; ; at += 1) {
    const air_C = temperatures_C[at % temperatures_C.length] as number;
    const hour = at % 24;
    yield {
      air_C,
      air_RH: (100 * saturation_hPa(Math.min(air_C, dewPoint_C))) / saturation_hPa(air_C),
      sun: 0.8 * Math.max(0, Math.sin((Math.PI * (hour - 6)) / 12)),
    };
  }
}
