/** `sandlarder trial test`: a plain table in, a comparison out. */
import { describe, expect, test } from 'vitest';
import { type TestFlags, test as trialTest } from '../../services/commands/trials/test.js';
import { NPK, PLANT_GROWTH, SLEEP } from '../checks/trial-data.js';
import { ownFolder } from '../support/served-site.js';

const flags: TestFlags = { design: 'welch', value: 'value' };

function said(text: string, given: Partial<TestFlags> = {}): string[] {
  const lines: string[] = [];
  trialTest(ownFolder().file('trial.csv', text), { ...flags, ...given }, (line) => void lines.push(line));
  return lines;
}

const tableOf = (data: Readonly<Record<string, readonly number[]>>): string =>
  [
    'bed,treatment,value,block,note',
    ...Object.entries(data).flatMap(([treatment, values]) =>
      values.map((value, at) => `${treatment}-${at},${treatment},${value},b${at},"a, ""b"""`),
    ),
  ].join('\r\n');

describe('what it prints', () => {
  test('sizes first, then how surely, what it rests on and what it means', () => {
    const lines = said(tableOf(PLANT_GROWTH));
    const heads = lines.filter((line) => /^\S/.test(line));
    expect(heads.map((head) => head.split(/[,.]/)[0])).toEqual([
      "Welch's analysis of variance of value",
      ...['Treatments', 'Differences', 'How surely', 'What it rests on', 'What it means'],
    ]);
    expect(lines).toContain("  Welch's analysis of variance: F(2, 17.13) = 5.181, p = 0.0174");
    expect(lines.join('\n')).toMatch(/trt2 less trt1: 0\.8\d \(0\.11 to 1\.62\); Hedges g 1\.29/);
    expect(lines.join('\n')).toMatch(/It does not say that the difference is worth its cost/);
  });

  test.each([
    ['anova', /F\(2, 27\) = 4\.846, p = 0\.0159/],
    ['blocks', /F\(2, 18\) = /],
    ['kruskal', /chi-square\(2\) = 7\.988, p = 0\.0184/],
  ])('%s', (design, sentence) => {
    expect(said(tableOf(PLANT_GROWTH), { design }).join('\n')).toMatch(sentence);
  });

  test('no difference shown is not said to be none', () => {
    const text = said(tableOf(SLEEP)).join('\n');
    expect(text).toMatch(
      /do not show that the treatments differ \(p = 0\.0794\)\. Anything from -0\.2\d* to 3\.4/,
    );
    expect(text).toMatch(/That is not the same as no difference/);
  });

  test('few beds are said to be few', () => {
    const few = 'bed,treatment,value\na,x,1\nb,x,2\nc,y,3\nd,y,5';
    expect(said(few).join('\n')).toMatch(/With 4 beds nobody can tell whether they scatter normally/);
    expect(said(few, { design: 'anova' }).join('\n')).toMatch(/With 2 beds of a treatment nobody can tell/);
  });

  test('roots that share a bed: the p of beds comes first, and is said to be out of reach for four', () => {
    const text = said(
      'bed;treatment;time;lost;roots\na;x;14;yes;5\na;x;28;no;45\nb;x;14;yes;9\nb;x;28;no;41\nc;y;28;no;50\nd;y;14;yes;1\nd;y;28;no;49',
      { design: 'survival' },
    ).join('\n');
    expect(text).toMatch(
      /Treatments given anew to the same beds \(9999 draws, seed 1; 6 different ways\): p = 0\.3/,
    );
    expect(text).toMatch(/Roots of one bed share its sand and its fate/);
    expect(text).toMatch(
      /only 6 ways of giving the treatments: no result could have been called a difference/,
    );
  });

  test('--json gives numbers and words', () => {
    const [line = ''] = said(tableOf(PLANT_GROWTH), { json: true });
    expect(JSON.parse(line)).toMatchObject({
      design: 'welch',
      beds: 30,
      tests: [{ statistic: 'F', df: [2, expect.closeTo(17.128419, 6)] }],
      words: { meaning: [expect.any(String), expect.any(String), expect.any(String)] },
    });
  });

  test('another column of values', () => {
    expect(said('bed,treatment,loss\na,x,1\nb,x,2\nc,y,3\nd,y,5', { value: 'loss' })[0]).toMatch(/of loss/);
  });
});

describe('what it refuses, by line and column', () => {
  test.each<[string, Partial<TestFlags>, RegExp]>([
    ['', {}, /line 1: expected columns bed, treatment, value, got nothing/],
    [
      'bed,treatment\na,x',
      {},
      /line 1: expected columns bed, treatment, value, got bed, treatment: value missing/,
    ],
    [
      'bed,treatment,value\na,x,1',
      { design: 'blocks' },
      /columns bed, treatment, value, block, got .*: block missing/,
    ],
    ['bed,treatment,value,bed\na,x,1,a', {}, /line 1: expected each column once, got "bed" twice/],
    ['bed,treatment,value', {}, /expected a line a bed under the names/],
    ['bed,treatment,value\na,x,1\nb,x', {}, /line 3: expected 3 cells, got 2/],
    ['bed,treatment,value\na,x,one', {}, /line 2, column value: expected a number, got "one"/],
    [
      'bed;treatment;value\na;x;1,5',
      {},
      /line 2, column value: expected a number with a decimal point, got "1,5"/,
    ],
    ['bed,treatment,value\na,x,', {}, /line 2, column value: expected a value, got nothing/],
    ['bed,treatment,value\na,x,NaN', {}, /expected a number, got "NaN"/],
    ['bed,treatment,value\na,x,1e999', {}, /expected a number, got "1e999"/],
    ['bed,treatment,value\na,x,0x10', {}, /expected a number, got "0x10"/],
    ['bed,treatment,value\n,x,1', {}, /line 2, column bed: expected a value, got nothing/],
    ['bed,treatment,value\na,,1', {}, /line 2, column treatment: expected a value/],
    [
      'bed,treatment,value\na,x,1\n\nb,x,2\na,x,3',
      {},
      /line 5, column bed: expected each bed once, got "a" again \(line 2\): readings of a bed are not beds/,
    ],
    ['bed,treatment,value\na,"x,1\nb,x,2', {}, /line \d: /],
    ['bed,treatment,value,block\na,x,1,', { design: 'blocks' }, /line 2, column block: expected a value/],
    [
      'bed,treatment,time,lost\na,x,1,perhaps',
      { design: 'survival' },
      /line 2, column lost: expected yes or no/,
    ],
    [
      'bed,treatment,time,lost\na,x,-1,yes',
      { design: 'survival' },
      /line 2, column time: expected a number of 0 or more/,
    ],
    [
      'bed,treatment,time,lost,roots\na,x,1,yes,0',
      { design: 'survival' },
      /line 2, column roots: expected more than 0, got 0/,
    ],
    [
      'bed,treatment,time,lost\na,x,1,yes\na,y,2,no',
      { design: 'survival' },
      /line 3, column treatment: expected "x" as in line 2 of the same bed, got "y"/,
    ],
    ['bed,treatment,value\na,x,1', { design: 'manova' }, /--design: expected welch or anova/],
  ])('%#: %j', (text, given, sentence) => {
    expect(() => said(text, given)).toThrow(
      expect.objectContaining({ code: 'WRONG_USAGE', message: expect.stringMatching(sentence) }),
    );
  });

  test('a file that is not there', () => {
    expect(() => trialTest('/nowhere/trial.csv', flags, () => undefined)).toThrow(
      /^expected a file that can be read at \/nowhere\/trial\.csv, got none$/,
    );
  });

  test('beds that do not suffice', () => {
    expect(() => said('bed,treatment,value\na,x,1\nb,y,2')).toThrow(
      /treatment "x": expected at least 2 beds, got 1/,
    );
  });
});

describe('things varied together', () => {
  const npk = [
    'bed,block,N,P,K,value',
    ...NPK.map(([block, given, value], at) => [`plot-${at}`, block, ...given, value].join(',')),
  ].join('\n');
  const blocks = { design: 'blocks', factors: 'N, P,K' };

  test('npk: shares first, then how surely [V+L R, aov(yield ~ block + N*P*K)]', () => {
    const lines = said(npk, blocks);
    expect(lines).toContain('  blocks: sum of squares 343.3');
    expect(lines).toContainEqual(expect.stringMatching(/^ {2}N 1: 12 beds, mean 57\.7.* \(\d.* to \d/));
    // 5.617 ± t(0.975, 12) 2.179 × sqrt(15.44 × 2 / 12), of what blocks and pairs leave.
    expect(lines).toContain('  N 1 less 0: 5.6 (2.1 to 9.1); p = 0.0044');
    expect(lines).toContain('  N: 0.5053; 189.3');
    expect(lines).toContain('  N: F(1, 12) = 12.26, p = 0.004372');
    expect(lines).toContain('  K: F(1, 12) = 6.166, p = 0.0288');
    const [json = ''] = said(npk, { ...blocks, json: true });
    expect(JSON.parse(json)).toMatchObject({ factors: ['N', 'P', 'K'], beds: 24, residualDf: 12 });
  });

  test('of three factors at once it speaks where there are three', () => {
    const rests = /What three factors do together/;
    expect(said(npk, blocks).join('\n')).toMatch(rests);
    expect(said(npk, { ...blocks, factors: 'N,K' }).join('\n')).not.toMatch(rests);
  });

  test.each([
    [npk, { ...blocks, design: 'anova' }, '--factors: expected none without --design blocks'],
    [npk, { ...blocks, factors: 'N' }, '--factors: expected 2 to 5 columns'],
    [npk, { ...blocks, factors: 'N,N' }, '--factors: expected each column once'],
    [
      npk,
      { ...blocks, factors: 'N,block' },
      '--factors: expected each column once, and not bed, block or value',
    ],
    [npk, { ...blocks, factors: 'N,S' }, 'S missing'],
    [
      npk.replace('plot-3,', 'plot-2,'),
      blocks,
      'line 5, column bed: expected each bed once, got "plot-2" again (line 4)',
    ],
    [npk.replace('0,1,1,49.5', '0,,1,49.5'), blocks, 'line 2, column P: expected a value, got nothing'],
  ])('refuses %#', (table, given, sentence) => {
    expect(() => said(table, given)).toThrow(sentence);
  });
});
