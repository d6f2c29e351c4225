/** Telephone numbers in their international form: ITU-T E.164, at most 15 digits after the plus sign. */
import { SandlarderError } from '../../core/errors.js';

/** Shorter ones are service numbers, which have no international form: common practice, no source. */
const NUMBER = /^\+[1-9][0-9]{6,14}$/;

/** What is wrong with a number, in one sentence; undefined where nothing is. The number is left out: it is private. */
export function numberProblem(number: string): string | undefined {
  if (NUMBER.test(number)) return undefined;
  const rule = 'expected a number as + and 7 to 15 digits with the country first, such as +46701234567';
  if (number.trim() === '') return `${rule}, got none`;
  if (/^00[1-9]/.test(number)) return `${rule}, got one that begins with 00 in place of +`;
  if (!number.startsWith('+')) return `${rule}, got one without +`;
  if (number.startsWith('+0')) return `${rule}, got one whose country begins with 0`;
  if (!/^\+[0-9]*$/.test(number)) return `${rule}, got one with other characters between the digits`;
  return `${rule}, got ${number.length - 1} digits`;
}

/** @throws SandlarderError BAD_REQUEST for what is no number */
export function requireNumber(number: string): void {
  const problem = numberProblem(number);
  if (problem !== undefined) throw new SandlarderError('BAD_REQUEST', problem);
}
