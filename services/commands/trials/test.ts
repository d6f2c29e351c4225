/** `sandlarder trial test DATA.csv`: one comparison on a plain table, without a service. */
import { SandlarderError } from '../../core/errors.js';
import {
  type BedValue,
  type ComparisonWords,
  compare,
  compareSurvival,
  comparisonWords,
  DESIGNS,
  type Design,
  perBed,
  type RootsSeen,
  survivalWords,
} from '../../core/trials/index.js';
import { onOutput, type Say } from '../say.js';
import { testFactors } from './factors.js';
import { wordLines } from './lines.js';
import { numberAt, type Row, rowsOf, tableText, textAt, wrongTable } from './table.js';

export interface TestFlags {
  readonly design: string;
  readonly value: string;
  readonly factors?: string;
  readonly json?: boolean;
}

/** @throws SandlarderError WRONG_USAGE naming line and column, TOO_FEW_SAMPLES where beds do not suffice */
export function test(file: string, flags: TestFlags, say: Say = onOutput): void {
  const design = designOf(flags.design);
  const text = tableText(file);
  if (flags.factors !== undefined) {
    testFactors(file, text, { ...flags, factors: flags.factors }, say);
    return;
  }
  if (design === 'survival') {
    const result = compareSurvival(rootsFrom(file, text));
    tell(result, survivalWords(result), 'Kept over time', result.correction, flags, say);
    return;
  }
  const result = compare(design, perBed(bedsFrom(file, text, flags.value, design)));
  const title = result.tests[0]?.name ?? '';
  tell(result, comparisonWords(result), `${title} of ${flags.value}`, result.correction, flags, say);
}

function designOf(text: string): Design {
  const design = DESIGNS.find((one) => one === text);
  if (design === undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--design: expected ${DESIGNS.join(' or ')}, got ${JSON.stringify(text)}`,
    );
  return design;
}

/** @throws SandlarderError WRONG_USAGE */
export function bedsFrom(file: string, text: string, value: string, design: Design): BedValue[] {
  const columns = ['bed', 'treatment', value, ...(design === 'blocks' ? ['block'] : [])];
  const seen = new Map<string, number>();
  return rowsOf(file, text, columns).map((row) => {
    const bed = textAt(file, row, 'bed');
    const before = seen.get(bed);
    if (before !== undefined)
      throw wrongTable(
        file,
        `line ${row.line}, column bed: expected each bed once, got ${JSON.stringify(bed)} again (line ${before}): readings of a bed are not beds, give one number that stands for it`,
      );
    seen.set(bed, row.line);
    const block = design === 'blocks' ? { block: textAt(file, row, 'block') } : {};
    return { bed, treatment: textAt(file, row, 'treatment'), ...block, value: numberAt(file, row, value) };
  });
}

const LOST: Readonly<Record<string, boolean>> = {
  yes: true,
  no: false,
  '1': true,
  '0': false,
  true: true,
  false: false,
};

/** @throws SandlarderError WRONG_USAGE */
export function rootsFrom(file: string, text: string): RootsSeen[] {
  const lines = new Map<string, Row>();
  return rowsOf(file, text, ['bed', 'treatment', 'time', 'lost']).map((row) => {
    const bed = textAt(file, row, 'bed');
    const before = lines.get(bed) ?? row;
    for (const column of ['treatment', 'block'])
      if (before.cells[column] !== row.cells[column])
        throw wrongTable(
          file,
          `line ${row.line}, column ${column}: expected ${JSON.stringify(before.cells[column])} as in line ${before.line} of the same bed, got ${JSON.stringify(row.cells[column])}`,
        );
    lines.set(bed, before);
    const lost = LOST[textAt(file, row, 'lost').toLowerCase()];
    if (lost === undefined)
      throw wrongTable(
        file,
        `line ${row.line}, column lost: expected yes or no (or 1 or 0), got ${JSON.stringify(row.cells['lost'])}`,
      );
    const roots = 'roots' in row.cells ? rootsAt(file, row) : 1;
    const block = row.cells['block'] ? { block: row.cells['block'] } : {};
    return {
      bed,
      treatment: textAt(file, row, 'treatment'),
      ...block,
      time: numberAt(file, row, 'time', 0),
      lost,
      roots,
    };
  });
}

/** A fraction where shares were carried over. */
function rootsAt(file: string, row: Row): number {
  const roots = numberAt(file, row, 'roots', 0);
  if (!(roots > 0))
    throw wrongTable(file, `line ${row.line}, column roots: expected more than 0, got ${roots}`);
  return roots;
}

function tell(
  result: unknown,
  words: ComparisonWords,
  title: string,
  correction: string | null,
  { json }: TestFlags,
  say: Say,
): void {
  if (json) {
    say(JSON.stringify({ ...(result as object), words }));
    return;
  }
  const together = correction === null ? '' : `, all pairs together (${correction})`;
  for (const line of [
    `${title}. Each bed counts once; intervals are of 95 %.`,
    ...wordLines(words, `Differences${together}`),
  ])
    say(line);
}
