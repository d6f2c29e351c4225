/** Figures of the notes that the program, or a formula that stands beside them, gives: none goes stale unseen. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { type PowerFlags, power } from '../../services/commands/keeping/power.js';
import { expectedSwing } from '../../services/core/keeping/index.js';
import { thresholdsInForce } from '../../services/core/model/threshold.js';
import { type BedShape, coverageOf } from '../../services/core/watch/coverage/index.js';

const note = (name: string): string =>
  readFileSync(new URL(`../../firmware-notes/${name}.md`, import.meta.url), 'utf8');

const PIT = {
  kind: 'stepped-pit',
  steps: [
    { length: 150, width: 100, height: 25 },
    { length: 150, width: 60, height: 25 },
  ],
} as const;
const BOX = { kind: 'box', steps: [{ length: 100, width: 50, height: 75 }] } as const;

/** Rows of a table with so many columns, as texts; rules and headings among them. */
const rowsOf = (text: string, columns: number): string[][] =>
  text
    .split('\n')
    .filter((line) => line.startsWith('|'))
    .map((line) => line.slice(1, -1).split('|'))
    .filter((cells) => cells.length === columns)
    .map((cells) => cells.map((cell) => cell.trim()));

/** Places of a bed's probes by the table of the note: number, x, y and depth from a column on. */
const placesFrom = (column: number) =>
  rowsOf(note('burying'), 9)
    .map((cells) => cells.slice(column, column + 4).map(Number))
    .filter(([number = Number.NaN]) => number > 0)
    .map(([, x = 0, y = 0, depth = 0]) => ({ x, y, depth }));

describe('choosing', () => {
  const { heating_unpack_per_bed_month, heating_check_per_bed_month } = thresholdsInForce();
  const rates = {
    unpack_per_bed_month: heating_unpack_per_bed_month,
    check_per_bed_month: heating_check_per_bed_month,
  };
  const beds: Readonly<Record<string, [BedShape, { x: number; y: number; depth: number }[]]>> = {
    pit: [PIT as unknown as BedShape, placesFrom(0)],
    box: [BOX as unknown as BedShape, placesFrom(5)],
  };
  const rows = rowsOf(note('choosing'), 5).filter(([, , , found]) => /^\d+ %$/.test(found ?? ''));

  test('has rows of both beds, with and without a shade probe', () => {
    expect(rows.map(([bed, count, shade]) => `${bed} ${count} ${shade}`)).toEqual([
      ...['pit 2 yes', 'pit 4 yes', 'pit 6 yes', 'pit 4 no'],
      ...['box 2 yes', 'box 4 yes'],
    ]);
    expect([beds['pit']?.[1].length, beds['box']?.[1].length]).toEqual([6, 4]);
  });

  // Each row takes a second or two: of the others the same code speaks, and they are looked at when asked for.
  const isAsked = process.env['SANDLARDER_ALL_FIGURES'] === '1';
  test.each(rows.filter(([, count]) => isAsked || count === '4'))(
    '%s with %s probes, shade probe: %s: found %s, blind %s, as the watch reckons now',
    (...row) => {
      const [bed = '', count, shade, found, blind] = row;
      const [shape, places] = beds[bed] ?? [];
      if (!shape || !places) throw new Error(`no such bed: ${bed}`);
      const { share, blindShare } = coverageOf(shape, places.slice(0, Number(count)), {
        ...{ power_W: 2, days: 7, shade: shade === 'yes', rates },
      });
      const percent = (value: number): string => `${Math.round(100 * value)} %`;
      expect([percent(share), percent(blindShare)]).toEqual([found, blind]);
    },
  );

  test('leakage and self-heating are as reckoned beside them', () => {
    const text = note('choosing');
    const perDegree = 3950 / 298.15 ** 2;
    const tooWarm = (leak_ohm: number): string =>
      (Math.log((10_000 + leak_ohm) / leak_ohm) / perDegree).toFixed(1);
    expect(text).toContain(`1 MΩ of wet path reads ${tooWarm(1e6)} °C too warm, 100 kΩ ${tooWarm(1e5)} °C`);
    const warmed = (power_W: number): number => power_W / (4 * Math.PI * 0.25 * 0.005);
    expect(text).toContain(`3.3 mW that is ${warmed(3.3e-3).toFixed(2)} °C`);
    expect(text).toContain(`it is ${warmed((3.3e-3 * 0.75) / 600).toFixed(4)} °C`);
  });
});

describe('building', () => {
  const text = note('building');

  test.each([
    ['4.7', '10'],
    ['2.2', '30'],
    ['1.0', '30'],
  ])('a line pulled up by %s kΩ', (kilo, use_m) => {
    const ohm = 1000 * Number(kilo);
    const toHigh = Math.log(3.3 / (3.3 - 2.2));
    const capacitance_pF = (cable_m: number): number => 60 * cable_m + 4 * 25 + 50;
    const rise_us = (toHigh * ohm * capacitance_pF(10) * 1e-6).toFixed(1);
    const longest_m = Math.floor(((9 / (toHigh * ohm)) * 1e6 - capacitance_pF(0)) / 60);
    expect(text).toContain(`| ${kilo} kΩ | ${rise_us} µs | ${longest_m} m | ${use_m} m |`);
  });

  test('pull-ups of a two-wire bus, by UM10204 7.1', () => {
    const most_kilo = (capacitance_F: number): number => 1000e-9 / (0.8473 * capacitance_F) / 1000;
    expect(text).toContain(`(0.8473 x 140e-12) = ${most_kilo(140e-12).toFixed(1)} kΩ`);
    expect(text).toContain(`At 400 pF at most ${most_kilo(400e-12).toFixed(2)} kΩ`);
    expect(text).toContain(`4,700 x 140e-12 = ${Math.round(0.8473 * 4700 * 140e-3)} ns`);
    expect(text).toContain(`230 pF, at most ${most_kilo(230e-12).toFixed(1)} kΩ`);
    expect(text).toContain(`2,200 x 230e-12 = ${Math.round(0.8473 * 2200 * 230e-3)} ns`);
    expect(text).toContain(`/ 3 mA = ${Math.round(2.9 / 0.003)} Ω`);
    expect(text).toContain(`(3.3 - 0.4) / 0.004 = ${2.9 / 0.004} Ω`);
  });

  test('what divider, regulator and bench setting take', () => {
    const drain_uA = 4.5 / 1.47;
    expect(text).toContain(`4.8 V become ${((4.8 * 470) / 1470).toFixed(2)} V`);
    expect(text.replaceAll('\n', ' ')).toContain(
      `= ${drain_uA.toFixed(1)} µA, ${((drain_uA * 24) / 1000).toFixed(3)} mAh a   day`,
    );
    expect(text).toContain(`${(4.5 / 0.02).toFixed(0)} µA, ${((4.5 / 0.02) * 0.024).toFixed(1)} mAh a day`);
    expect(text).toContain(
      `${5 * 24} mAh a day, and\n  the battery above is empty in ${1800 / (5 * 24)} days`,
    );
    expect(text).toContain(`these cost ${120 * 4} mAh`);
  });

  const examples = [...text.matchAll(/^npx sandlarder power (.+)\n([\s\S]+?)\n```$/gm)].map(
    ([, flags = '', said = '']) => ({ flags, said: said.split('\n') }),
  );

  test('has its energy budgets', () => expect(examples).toHaveLength(3));

  test.each(examples)('power $flags says what stands there', ({ flags, said }) => {
    const lines: string[] = [];
    power(flagsOf(flags), (line) => lines.push(line));
    expect(said.filter((line) => !lines.includes(line))).toEqual([]);
  });
});

/** `--active 1:2:3 4:5:6 --sleep 3`, as the command line reads it. */
function flagsOf(text: string): PowerFlags {
  const flags: Record<string, string | string[]> = {};
  for (const [, name = '', values = ''] of text.matchAll(/--([a-z-]+) ([^-]+)/g)) {
    const list = values.trim().split(' ');
    flags[name] = name === 'active' ? list : (list[0] ?? '');
  }
  return flags as unknown as PowerFlags;
}

test('burying says what a probe shows 10 and 20 cm deep', () => {
  const [at10, at20] = [10, 20].map((depth) => expectedSwing(PIT, { x: 75, y: 50, depth }));
  const shown = (swing: typeof at10): string => `${Math.round(100 * (swing?.share.likely ?? 0))} %`;
  const late = (swing: typeof at10): string => `${Math.round(swing?.lag_h.likely ?? 0)} hours late`;
  expect(note('burying')).toContain(
    `10 cm down in dry sand about ${shown(at10)}, ${late(at10)}; at 20 cm ${shown(at20)}, ${late(at20)}`,
  );
});
