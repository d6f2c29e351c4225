/** The values of one quantity in an hour: how many, the least, their mean, the greatest. Raw. */
import type { Quantity } from '../core/model/quantity.js';
import { bitOf, decodeTimes, encodeTimes } from './times-code.js';

export interface HourValues {
  readonly count: number;
  readonly least: number;
  readonly mean: number;
  readonly greatest: number;
}

/** An hour of a probe; a quantity that was not measured is absent. */
export interface ReadingHour {
  readonly hour: number;
  readonly values: Readonly<Partial<Record<Quantity, HourValues>>>;
  /** Which times are in it, as `decodeTimes` reads it. */
  readonly times: Uint8Array;
}

/** What a sensor in sand or shade can show; anything else is a code, and stays as it came. °C, %RH. */
const USABLE: Readonly<Partial<Record<Quantity, readonly [number, number]>>> = {
  temperature: [-40, 80],
  humidity: [0, 120],
};

/** Whether a value may go into an hour: one code would stand as its least or greatest for ever. */
export function mayFold(quantity: Quantity, value: number): boolean {
  const range = USABLE[quantity];
  return range === undefined || (value >= range[0] && value <= range[1]);
}

/** An hour that is being put together. */
export class FoldedHour {
  readonly #values: Partial<Record<Quantity, HourValues>>;
  readonly #times: Map<number, number>;

  constructor(
    readonly hour: number,
    before: ReadingHour | undefined,
  ) {
    this.#values = { ...before?.values };
    this.#times = new Map(before ? decodeTimes(before.times) : []);
  }

  add(time: number, quantity: Quantity, value: number): void {
    const offset_ms = time - this.hour;
    this.#times.set(offset_ms, (this.#times.get(offset_ms) ?? 0) | bitOf(quantity));
    this.#values[quantity] = withValue(this.#values[quantity], value);
  }

  done(): ReadingHour {
    const times = [...this.#times].sort(([one], [other]) => one - other);
    return { hour: this.hour, values: this.#values, times: encodeTimes(times) };
  }
}

function withValue(before: HourValues | undefined, value: number): HourValues {
  if (!before) return { count: 1, least: value, mean: value, greatest: value };
  const count = before.count + 1;
  return {
    count,
    least: Math.min(before.least, value),
    mean: before.mean + (value - before.mean) / count,
    greatest: Math.max(before.greatest, value),
  };
}
