/** A sieve sheet as a CSV file: columns `sieve` (opening in mm, `no40` or `pan`) and `retained_g`. */
import { SandlarderError } from '../../core/errors.js';
import { type CsvRecord, csvRecords } from '../../core/model/csv-lines.js';
import type { Sieving } from '../../core/model/sand-samples.js';

const wrong = (file: string, message: string): SandlarderError =>
  new SandlarderError('WRONG_USAGE', `${file}: ${message}`);

const MOST_BYTES = 100_000;

/** @throws SandlarderError WRONG_USAGE naming the line */
export function sievesFromCsv(file: string, text: string): Sieving {
  if (!(text.length <= MOST_BYTES))
    throw wrong(file, `expected at most ${MOST_BYTES} characters, got ${text.length}`);
  const [head, ...rows] = csvRecords(text, text.includes(';') ? ';' : ',');
  const names = head?.fields.map((field) => field.trim().toLowerCase()) ?? [];
  const [sieve, retained] = [names.indexOf('sieve'), names.indexOf('retained_g')];
  if (sieve === -1 || retained === -1)
    throw wrong(file, `expected columns sieve and retained_g, got ${JSON.stringify(names.join(','))}`);
  let pan_g: number | undefined;
  const sieves: Sieving['sieves'][number][] = [];
  for (const row of rows) {
    const name = (row.fields[sieve] ?? '').trim().toLowerCase();
    const retained_g = gramsOf(file, row, row.fields[retained]);
    if (name !== 'pan') sieves.push({ ...sieveOf(file, row, name), retained_g });
    else if (pan_g === undefined) pan_g = retained_g;
    else throw wrong(file, `line ${row.line}: expected one pan, got another`);
  }
  if (pan_g === undefined)
    throw wrong(file, 'expected a line "pan" with what fell through all sieves, got none');
  return { sieves, pan_g };
}

function gramsOf(file: string, { line, fault }: CsvRecord, text = ''): number {
  if (fault !== undefined) throw wrong(file, `line ${line}: ${fault}`);
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!(value >= 0 && value <= 100_000))
    throw wrong(file, `line ${line}: expected grams from 0 to 100000, got ${JSON.stringify(text)}`);
  return value;
}

function sieveOf(file: string, { line }: CsvRecord, name: string) {
  const [, number] = /^no\.?(\d{1,3})$/.exec(name) ?? [];
  if (number !== undefined) return { number: Number(number) };
  const opening_mm = name === '' ? Number.NaN : Number(name);
  if (!(opening_mm > 0 && opening_mm <= 200))
    throw wrong(
      file,
      `line ${line}: expected an opening in mm, a number such as no40, or pan, got ${JSON.stringify(name)}`,
    );
  return { opening_mm };
}
