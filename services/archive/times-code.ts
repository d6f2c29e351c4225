/**
 * Which times of an hour are in its row, and which quantities of each: so that a reading that is sent again is known.
 *
 * Pairs of unsigned LEB128 numbers (DWARF 5, 7.6): a step, and how often it follows itself. A step holds the ms since
 * the time before (since the hour's start for the first) times 16, and a bit for each quantity in the order of
 * `QUANTITIES`. A probe that keeps its pace takes some 12 bytes for an hour, at whatever rate; one whose times jitter
 * by ms up to 5 bytes for a reading.
 */
import { QUANTITIES, type Quantity } from '../core/model/quantity.js';

/** Of one time: ms since the hour's start, and a bit for each quantity. */
export type HourTime = readonly [offset_ms: number, quantities: number];

const MASKS = 2 ** QUANTITIES.length;

export const bitOf = (quantity: Quantity): number => 1 << QUANTITIES.indexOf(quantity);

/** @param times in order, each once */
export function encodeTimes(times: readonly HourTime[]): Buffer {
  const bytes: number[] = [];
  let before = 0;
  let step: number | undefined;
  let repeats = 0;
  for (const [offset_ms, quantities] of times) {
    const next = (offset_ms - before) * MASKS + quantities;
    before = offset_ms;
    if (next === step) repeats += 1;
    else {
      if (step !== undefined) pushNumbers(bytes, step, repeats);
      step = next;
      repeats = 0;
    }
  }
  if (step !== undefined) pushNumbers(bytes, step, repeats);
  return Buffer.from(bytes);
}

function pushNumbers(bytes: number[], ...numbers: readonly number[]): void {
  for (let number of numbers) {
    for (; number >= 128; number = Math.floor(number / 128)) bytes.push((number % 128) + 128);
    bytes.push(number);
  }
}

export function decodeTimes(code: Uint8Array): HourTime[] {
  const times: HourTime[] = [];
  const numbers = numbersOf(code);
  let offset_ms = 0;
  for (let at = 0; at + 1 < numbers.length; at += 2) {
    const step = numbers[at] as number;
    for (let left = numbers[at + 1] as number; left >= 0; left -= 1) {
      offset_ms += Math.floor(step / MASKS);
      times.push([offset_ms, step % MASKS]);
    }
  }
  return times;
}

function numbersOf(code: Uint8Array): number[] {
  const numbers: number[] = [];
  let number = 0;
  let place = 1;
  for (const byte of code) {
    number += (byte % 128) * place;
    place *= 128;
    if (byte >= 128) continue;
    numbers.push(number);
    number = 0;
    place = 1;
  }
  return numbers;
}
