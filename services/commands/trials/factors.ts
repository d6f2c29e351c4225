/** `sandlarder trial test DATA.csv --design blocks --factors A,B`: several things varied together, in blocks. */
import { SandlarderError } from '../../core/errors.js';
import { type Factorial, type FactorialBed, factorialInBlocks, meansWords } from '../../core/trials/index.js';
import type { Say } from '../say.js';
import { numberAt, rowsOf, textAt, wrongTable } from './table.js';

interface FactorFlags {
  readonly design: string;
  readonly value: string;
  readonly factors: string;
  readonly json?: boolean;
}

/** Their pairs are compared too: more could not be told apart in any trial that somebody fills. */
const MOST_FACTORS = 5;

/** @throws SandlarderError WRONG_USAGE naming line and column, TOO_FEW_SAMPLES where terms cannot be told apart */
export function testFactors(file: string, text: string, flags: FactorFlags, say: Say): void {
  const factors = factorsOf(flags);
  const beds = bedsOf(file, text, flags.value, factors);
  const result = factorialInBlocks(beds, factors);
  if (flags.json) say(JSON.stringify({ design: 'blocks', factors, beds: beds.length, ...result }));
  else for (const line of factorLines(result, flags.value, factors.length)) say(line);
}

function factorsOf({ design, factors, value }: FactorFlags): string[] {
  const names = factors.split(',').map((name) => name.trim());
  const refuse = (expected: string): SandlarderError =>
    new SandlarderError('WRONG_USAGE', `--factors: expected ${expected}, got ${JSON.stringify(factors)}`);
  if (design !== 'blocks') throw refuse('none without --design blocks');
  if (names.length < 2 || names.length > MOST_FACTORS || names.includes(''))
    throw refuse(`2 to ${MOST_FACTORS} columns with commas between`);
  const strange = names.find(
    (name, at) => names.indexOf(name) !== at || ['bed', 'block', value].includes(name),
  );
  if (strange !== undefined) throw refuse(`each column once, and not bed, block or ${value}`);
  return names;
}

function bedsOf(file: string, text: string, value: string, factors: readonly string[]): FactorialBed[] {
  const lines = new Map<string, number>();
  return rowsOf(file, text, ['bed', 'block', ...factors, value]).map((row) => {
    const bed = textAt(file, row, 'bed');
    const before = lines.get(bed);
    if (before !== undefined)
      throw wrongTable(
        file,
        `line ${row.line}, column bed: expected each bed once, got ${JSON.stringify(bed)} again (line ${before})`,
      );
    lines.set(bed, row.line);
    const levels = factors.map((name) => [name, textAt(file, row, name)] as const);
    return {
      ...{ bed, block: textAt(file, row, 'block'), value: numberAt(file, row, value) },
      ...{ treatment: levels.map(([, level]) => level).join(' '), factors: Object.fromEntries(levels) },
    };
  });
}

const shown = (value: number): string => Number(value.toPrecision(4)).toString();

const OF_THREE =
  'What three factors do together is taken for scatter, or goes with the blocks where the design has it so.';

/** Sizes first, then how surely. */
function factorLines(
  { rows, means, residualDf, residualSquares }: Factorial,
  value: string,
  factors: number,
): string[] {
  return [
    `${value} by factors in blocks, each alone and each pair beside what they do alone. Each bed counts once.`,
    ...['', 'Levels, each over those of the others; intervals are of 95 %'],
    ...means.flatMap(meansWords).map((line) => `  ${line}`),
    ...['', 'Share of what blocks leave (partial eta squared), and sum of squares'],
    ...rows.map(({ name, squares, f }) =>
      f === null
        ? `  ${name}: sum of squares ${shown(squares)}`
        : `  ${name}: ${shown(squares / (squares + residualSquares))}; ${shown(squares)}`,
    ),
    ...['', 'How surely'],
    ...rows.flatMap(({ name, df, f, p }) =>
      f === null || p === null ? [] : [`  ${name}: F(${df}, ${residualDf}) = ${shown(f)}, p = ${shown(p)}`],
    ),
    ...['', 'What it rests on'],
    ...(factors > 2 ? [`  ${OF_THREE}`] : []),
    '  Beds are taken to scatter alike under all factors. Pairs of one factor are corrected together, nothing for how many factors are looked at.',
    '  Differences are beside all other factors, shares beside those named before: where beds are missing they need not agree.',
  ];
}
