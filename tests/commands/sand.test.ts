import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type SandCommandFlags, sand } from '../../services/commands/keeping/sand.js';
import { temporaryDirectory } from '../support/open.js';
import { run } from '../support/processes.js';

const GOOD = ['4.75:0', '2:10', '1:40', '0.5:250', '0.25:500', '0.15:150', '0.075:40'];
const SERVICE = 'http://127.0.0.1:1';

async function said(flags: Partial<SandCommandFlags>): Promise<string[]> {
  const lines: string[] = [];
  await sand({ service: SERVICE, ...flags }, (line) => lines.push(line));
  return lines;
}

const json = async (flags: Partial<SandCommandFlags>) =>
  JSON.parse((await said({ ...flags, json: true }))[0] ?? '');

function sheet(text: string): string {
  const file = join(temporaryDirectory(), 'sieves.csv');
  writeFileSync(file, text);
  return file;
}

describe('sand', () => {
  test('of a sieving says sizes, classes and the plain verdict with its sources', async () => {
    const lines = await said({ sieve: GOOD, pan: '10', sample: '1000' });
    expect(lines[0]).toBe('Grains: Coarse enough for air, and clean');
    expect(lines).toContain('  D10 0.178 mm, D30 0.287 mm, D50 0.379 mm, D60 0.435 mm; Cu 2.45, Cc 1.07');
    expect(lines).toContain('  USCS SP; Wentworth: medium sand, by the median');
    expect(lines[1]).toMatch(
      /^ {2}met: fines 1 %, at most 3 % by mass \(sand_fines_most_percent\) \[judgement: /,
    );
    expect(lines.join('\n')).toContain('Dust of dry sand harms the lungs');
  });

  test.each<[string, readonly string[], string, string]>([
    ['fine sand', ['1:0', '0.25:20', '0.15:60', '0.075:18'], '2', 'Too fine for air'],
    ['dirty sand', ['1:10', '0.5:40', '0.25:30', '0.075:10'], '10', 'Too dirty'],
    ['dirt', ['1:0', '0.25:10', '0.15:30', '0.075:20'], '40', 'Too dirty, and too fine for air'],
    ['gravel', ['9.5:10', '4.75:40', '2:40', '0.075:10'], '0', 'Too coarse'],
  ])('calls %s what it is', async (_, sieve, pan, verdict) => {
    expect((await said({ sieve, pan }))[0]).toBe(`Grains: ${verdict}`);
  });

  test('as JSON is one object with units in its keys', async () => {
    const found = await json({ sieve: GOOD, pan: '10', wet: '801', dry: ['800'], container: '300' });
    expect(found.grains).toMatchObject({ verdict: 'good', USCS: ['SP'], Wentworth: 'medium sand' });
    expect(found.grains.D60).toEqual({ is: 'known', mm: expect.closeTo(0.435, 3) });
    expect(found.moisture).toMatchObject({ water_percent: 0.2, dryEnough: 'unknown', drying: 'unknown' });
    expect(found.cooling).toBeUndefined();
  });

  test.each<[string, string[], Partial<SandCommandFlags>, string]>([
    ['weighed once out of a pan', ['800'], {}, 'unknown'],
    ['still losing water', ['800.6', '800'], {}, 'unknown'],
    ['heavier than before', ['798', '800'], {}, 'unknown'],
    ['two weighings agree', ['800.1', '800'], {}, 'met'],
    ['two agree, on a balance that tells no closer', ['800', '800'], { balanceStep: '1' }, 'met'],
    ['once out of an oven', ['800'], { way: 'oven' }, 'met'],
  ])('dry sand, %s', async (_, dry, more, dryEnough) => {
    const found = await json({ wet: '801', container: '300', ...more, dry });
    expect(found.moisture.dryEnough).toBe(dryEnough);
    expect(found.moisture.sentence).toMatch(dryEnough === 'met' ? /^Dry enough/ : /^Not sure/);
  });

  test('takes sieves by their number, and a sheet as CSV with commas or semicolons', async () => {
    const byNumber = await json({ sieve: ['no10:10', 'no40:400', 'No60:500'], pan: '90' });
    const commas = sheet('sieve,retained_g\nno10,10\n0.425,400\n0.25,500\npan,90\n');
    const semicolons = sheet('Retained_g;Sieve\r\n10;no10\r\n400;no40\r\n500;0.25\r\n90;PAN\r\n');
    expect(await json({ sieves: commas })).toEqual(byNumber);
    expect(await json({ sieves: semicolons })).toEqual(byNumber);
  });

  test('tells by several weighings whether the sample had dried out', async () => {
    const weighed = { wet: '810', container: '300', way: 'oven' };
    expect((await json({ ...weighed, dry: ['802', '800.2', '800.1'] })).moisture.drying).toBe('constant');
    expect((await json({ ...weighed, dry: ['805', '800.1'] })).moisture.drying).toBe('losing');
    expect((await said({ ...weighed, dry: ['800', '803'] })).join('\n')).toContain('heavier than before');
  });

  test('holds warm sand against the shade, spread out or as a block', async () => {
    const warm = { sandTemperature: '30', shade: '22' };
    const thin = await json({ ...warm, layer: '5' });
    const thick = await json({ ...warm, block: '150x60x25' });
    expect(thin.cooling).toMatchObject({ above_C: 8, verdict: 'wait until evening' });
    expect(thick.cooling.least_h).toBeGreaterThan(thin.cooling.least_h);
    expect((await json({ sandTemperature: '23', shade: '22' })).cooling).toMatchObject({
      verdict: 'fill',
      least_h: 0,
    });
  });
});

describe('sand is refused in one line', () => {
  test.each<[Partial<SandCommandFlags>, RegExp]>([
    [{}, /^sand: expected --sieve and --pan .* got none$/],
    [{ pan: '3' }, /^--sieve: expected at least two/],
    [{ sample: '3' }, /^--sieve/],
    [{ sieve: GOOD }, /^--pan/],
    [{ sieve: ['2:5'], pan: '1' }, /^--sieve: expected at least two .* got 1$/],
    [{ sieve: ['2', '1:3'], pan: '1' }, /^--sieve: expected OPENING:GRAMS .* got "2"$/],
    [{ sieve: ['2:-5', '1:3'], pan: '1' }, /^--sieve/],
    [{ sieve: ['two:5', '1:3'], pan: '1' }, /^--sieve/],
    [{ sieve: ['2:5', '1:1.2.3'], pan: '1' }, /^--sieve/],
    [{ sieve: ['1:5', '2:3'], pan: '1' }, /openings of sieves must descend, got 2 mm after 1 mm/],
    [{ sieve: ['no11:5', '1:3'], pan: '1' }, /sieve number must be one of .* got 11/],
    [{ sieve: ['2:0', '1:0'], pan: '0' }, /sum of all masses/],
    [{ sieve: GOOD, pan: 'NaN' }, /^--pan/],
    [{ sieve: GOOD, pan: '10', sample: '1200' }, /must sum up to the sample of 1200 g within 2 %/],
    [{ sieve: GOOD, pan: '10', sieves: 'sheet.csv' }, /--sieves: expected either a file or --sieve/],
    [{ sieves: '/nowhere.csv' }, /^--sieves: expected a file that can be read at \/nowhere\.csv, got none$/],
    [{ wet: '801', dry: ['800'] }, /^--wet, --dry and --container: expected all three/],
    [{ way: 'oven' }, /^--wet, --dry and --container/],
    [{ wet: '801', dry: ['800'], container: '300', way: 'sun' }, /^--way: expected oven or pan, got "sun"$/],
    [{ wet: '790', dry: ['800'], container: '300' }, /mass dried must not be above that moist/],
    [{ wet: '801', dry: ['300'], container: '300' }, /must be above that of the container/],
    [{ wet: '801', dry: ['250', '800'], container: '300' }, /must be above that of its container/],
    [{ wet: '801', dry: ['800'], container: '300', balanceStep: '0' }, /^--balance-step/],
    [{ sandTemperature: '30' }, /^--sand-temperature and --shade: expected both/],
    [{ layer: '10' }, /^--sand-temperature and --shade/],
    [{ sandTemperature: '95', shade: '20' }, /^--sand-temperature/],
    [{ sandTemperature: '30', shade: '20', layer: '10', block: '1x1x1' }, /^--layer: expected it or --block/],
    [{ sandTemperature: '30', shade: '20', block: '100x60' }, /^--block/],
    [{ sieve: GOOD, pan: '10', by: 'A. Technician' }, /^--by: expected --bed/],
    [{ sieve: GOOD, pan: '10', bed: 'pit-a' }, /^--bed: expected --by/],
  ])('%j', async (flags, message) => {
    await expect(said(flags)).rejects.toMatchObject({
      code: 'WRONG_USAGE',
      message: expect.stringMatching(message),
    });
  });

  test.each([
    ['', /expected columns sieve and retained_g, got ""/],
    ['sieve,mass\n2,1\n', /expected columns/],
    ['sieve,retained_g\n2,1\n1,2\n', /expected a line "pan"/],
    ['sieve,retained_g\n2,1\n1,2\npan,1\npan,2\n', /line 5: expected one pan/],
    ['sieve,retained_g\n2,1\n1,x\npan,1\n', /line 3: expected grams from 0 to 100000, got "x"/],
    ['sieve,retained_g\n2,1\n1,-1\npan,1\n', /line 3: expected grams/],
    ['sieve,retained_g\n2,1\n1\npan,1\n', /line 3: expected grams/],
    ['sieve,retained_g\n2,1\nfine,3\npan,1\n', /line 3: expected an opening in mm/],
    ['sieve,retained_g\n2,1\n"1,3\npan,1\n', /line 3: expected/],
  ])('a sheet such as %j', async (text, message) => {
    await expect(said({ sieves: sheet(text) })).rejects.toMatchObject({
      code: 'WRONG_USAGE',
      message: expect.stringMatching(message),
    });
  });

  test('from the command line, with exit code 2', async () => {
    const done = await run(['sand', '--sieve', ...GOOD, '--pan', '10', '--json']);
    expect([done.code, done.stderr]).toEqual([0, '']);
    expect(JSON.parse(done.stdout).grains.plain).toBe('coarse enough for air, and clean');
    const wrong = await run(['sand', '--sieve', '2:1']);
    expect([wrong.code, wrong.stdout]).toEqual([2, '']);
    expect(wrong.stderr).toMatch(/^sandlarder: --sieve: .*\n$/);
    const away = await run([
      'sand',
      '--sieve',
      ...GOOD,
      '--pan',
      '1',
      '--bed',
      'a',
      '--by',
      'b',
      '--service',
      SERVICE,
    ]);
    expect(away.code).toBe(1);
    expect(away.stderr).toMatch(/^sandlarder: expected a service at .*\n$/);
  });
});
