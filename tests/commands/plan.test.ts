import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type PlanFlags, plan } from '../../services/commands/plan.js';
import { temporaryDirectory } from '../support/open.js';
import { run } from '../support/processes.js';

const STEPS = '150x60x25,100x60x25,50x60x25';

function said(flags: Partial<PlanFlags>): string[] {
  const lines: string[] = [];
  plan({ kind: 'stepped-pit', probes: '0', ...flags }, (line) => lines.push(line));
  return lines;
}

const json = (flags: Partial<PlanFlags>): Record<string, unknown> =>
  JSON.parse(said({ ...flags, json: true })[0] ?? '') as Record<string, unknown>;

describe('plan', () => {
  test('of steps says volumes, roots, sand, roof, warmth and what it rests on', () => {
    const lines = said({ steps: STEPS });
    expect(lines[0]).toBe('Stepped pit: 450 L, takes 316 roots at the most');
    expect(lines[1]).toBe(
      '  step 1: 150 cm (2 strides) long, 60 cm (3 spans) wide, 25 cm (2½ hands) high: 225 L',
    );
    expect(lines).toContain('Sand: 363 L, 37 buckets of 10 L, 579 kg dry (16 kg a bucket)');
    expect(lines).toContain('Digging: 450 L; the heap beside it is 495 to 585 L');
    expect(lines.join('\n')).toMatch(
      /Warmth: the middle of the sound bed sits [\d.]+ to [\d.]+ °C above its ground/,
    );
    for (const line of lines.slice(lines.indexOf('It rests on:') + 1))
      expect(line).toMatch(/\[(published|common practice, no source|from memory|judgement|as asked for)/);
  });

  test('as JSON is one object with units in its keys', () => {
    expect(said({ steps: STEPS, json: true })).toHaveLength(1);
    expect(json({ steps: STEPS })).toMatchObject({
      kind: 'stepped-pit',
      fits: true,
      volume_L: { steps: [225, 150, 75], total: 450 },
      roots: 316,
      buckets: 37,
      digging_L: 450,
      probes: [],
    });
  });

  test('takes spaces, capital X and decimal sides', () => {
    expect(json({ steps: '150X60x25, 99.5x60x25' })['volume_L']).toMatchObject({ steps: [225, 149.25] });
  });

  test('of roots, or of their mass, proposes a bed', () => {
    expect(json({ roots: '400' })).toMatchObject({ proposed: true, asked_roots: 400, fits: true });
    expect(json({ rootMass: '60', rootKg: '0.2', kind: 'box' })).toMatchObject({
      kind: 'box',
      asked_roots: 300,
    });
    expect(said({ roots: '5000' }).join('\n')).toMatch(/one of \d+ alike[\s\S]*All \d+ beds: 5000 roots/);
  });

  test('uses the sizes of the user', () => {
    const lines = said({ steps: STEPS, hand: '12.5', span: '25', stride: '50', forearm: '40', bucket: '20' });
    expect(lines[1]).toContain('150 cm (3 strides) long');
    expect(lines[1]).toContain('25 cm (1 span) high');
    expect(lines.join('\n')).toContain('19 buckets of 20 L');
  });

  test('says first what does not fit, and the nearest that does', () => {
    const [first, second] = said({ steps: STEPS, roots: '400' });
    expect(first).toBe('Does not fit: 400 roots were asked for, this bed takes 316 at the most.');
    expect(second).toMatch(/^Nearest that does: one bed of 180x60x25,130x60x25,80x60x25 \(\d+ roots each\)/);
  });

  test('writes the drawing', () => {
    const svg = join(temporaryDirectory(), 'bed.svg');
    expect(said({ steps: STEPS, svg }).at(-1)).toBe(`Drawing: ${svg}`);
    expect(readFileSync(svg, 'utf8')).toMatch(/^<svg [\s\S]*<\/svg>\n$/);
  });

  test.each<[Partial<PlanFlags>, RegExp]>([
    [{}, /expected --roots, --root-mass or --steps/],
    [{ kind: 'heap', roots: '10' }, /--kind: expected stepped-pit or box, got "heap"/],
    [{ steps: '' }, /--steps: expected LENGTHxWIDTHxHEIGHT/],
    [{ steps: '150x60' }, /such as 150x60x25 for step 1, got "150x60"/],
    [{ steps: '150x60x25,' }, /for step 2, got ""/],
    [{ steps: '150x60x25x10' }, /--steps/],
    [{ steps: '150xabcx25' }, /--steps, step 1: expected a number .* got "abc"/],
    [{ steps: '150x0x25' }, /--steps, step 1/],
    [{ steps: '150x-60x25' }, /--steps, step 1/],
    [{ steps: '150xNaNx25' }, /--steps, step 1/],
    [{ steps: '150x60x25,160x60x25' }, /step 2: expected a length of at most 150 cm/],
    [{ steps: '150x60x25,100x60x25', kind: 'box' }, /number of steps of a box/],
    [{ steps: '100x60x10' }, /depth of at least 17 cm/],
    [{ roots: '0' }, /--roots/],
    [{ roots: '2.5' }, /--roots: expected a whole number/],
    [{ roots: 'many' }, /--roots/],
    [{ roots: '10', rootMass: '3' }, /--roots or --root-mass, got both/],
    [{ rootMass: '-3' }, /--root-mass/],
    [{ roots: '10', rootKg: '3' }, /--root-kg/],
    [{ roots: '10', bucket: '0' }, /--bucket/],
    [{ roots: '10', hand: '50' }, /--hand: expected a number from 5 to 15/],
    [{ roots: '10', stride: 'x' }, /--stride/],
    [{ roots: '10', probes: '21' }, /--probes/],
    [{ roots: '10', ground: '99' }, /--ground/],
    [
      { roots: '10', svg: '/nowhere/bed.svg' },
      /can be written at \/nowhere\/bed.svg, got a folder that is not there/,
    ],
  ])('%j is wrong usage', (flags, message) => {
    expect(() => said(flags)).toThrow(
      expect.objectContaining({ code: 'WRONG_USAGE', message: expect.stringMatching(message) }),
    );
  });

  test('nothing is drawn where nothing is planned', () => {
    const svg = join(temporaryDirectory(), 'bed.svg');
    expect(() => said({ steps: '10x10x10', svg })).toThrow();
    expect(existsSync(svg)).toBe(false);
  });

  test('from the command line: exit 0 with the answer, 2 and one line for steps that are none', async () => {
    const { code, stdout, stderr } = await run(['plan', '--steps', STEPS, '--probes', '1', '--json']);
    expect([code, stderr]).toEqual([0, '']);
    expect(JSON.parse(stdout)).toMatchObject({ volume_L: { total: 450 }, probes: [{ id: 'p1' }] });
    const wrong = await run(['plan', '--steps', 'big']);
    expect([wrong.code, wrong.stdout]).toEqual([2, '']);
    expect(wrong.stderr).toMatch(/^sandlarder: --steps: .*\n$/);
    expect((await run(['plan', '--help'])).stdout).toContain('--svg');
  });
});
