import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type CoverageFlags, coverage } from '../../services/commands/coverage.js';
import { temporaryDirectory } from '../support/open.js';
import { run, start } from '../support/processes.js';

const FROM = '2026-05-04T08:00:00Z';
const NOW = Date.UTC(2026, 6, 1);

const place = (id: string, x: number, to?: string) => ({
  id,
  placements: [{ bed: 'box-t', x, y: 25, depth: 27, from: FROM, ...(to && { to }) }],
});

function siteFile(change: object = {}): string {
  const file = join(temporaryDirectory(), 'site.json');
  const box = { kind: 'box', steps: [{ length: 80, width: 50, height: 50 }] };
  const site = {
    version: 1,
    site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
    beds: [
      { id: 'box-t', name: 'Box T', ...box, roots: { mass_kg: 30 } },
      { id: 'box-u', name: 'Box U', ...box },
    ],
    probes: [
      ...[place('p01', 25), place('p02', 55), place('p03', 40, '2026-06-01T00:00:00Z')],
      { id: 'p09', placements: [{ ambient: true, from: FROM }] },
    ],
    ...change,
  };
  writeFileSync(file, JSON.stringify(site));
  return file;
}

function said(ids: readonly string[], flags: Partial<CoverageFlags> = {}, file = siteFile()): string[] {
  const lines: string[] = [];
  coverage(file, ids, { power: '3', days: '7', ...flags }, (line) => lines.push(line), NOW);
  return lines;
}

describe('coverage', () => {
  test('says in lines what is found, where it is blind, and where the next probe goes', () => {
    const lines = said([], { next: true });
    expect(lines[0]).toBe('Box T (box-t), 2 probes, with a probe in the shade:');
    expect(lines[1]).toMatch(
      /^ {2}a source of 3 W would be found within 7 days in \d+ % of the bed; \d+ % is blind$/,
    );
    expect(lines.filter((line) => line.startsWith('Box'))).toHaveLength(2);
    expect(lines).toContain('Box U (box-u), 0 probes, with a probe in the shade:');
    expect(lines).toContain(
      '  a source of 3 W would be found within 7 days in 0 % of the bed; 100 % is blind',
    );
    for (const line of lines.filter((one) => one.startsWith('  blind: ')))
      expect(line).toMatch(/\(x \d+, y \d+, depth \d+\), \d+ cm around; \d+ % of the bed, found (not|after)/);
    expect(lines.filter((line) => /^ {2}next probe: .*: found in \d+ % with it$/.test(line))).toHaveLength(2);
    expect(lines.at(-1)).toContain('the look by hand every two weeks stays');
  });

  test('as JSON is an object for each bed that was asked for', () => {
    const [line, ...others] = said(['box-t'], { json: true });
    expect(others).toEqual([]);
    const found = JSON.parse(line ?? '') as Record<string, unknown>;
    expect(found).toMatchObject({ bed: 'box-t', power_W: 3, days: 7, probes: 2, shade: true });
    expect(found['share']).toBeGreaterThan(0.05);
    expect(found).not.toHaveProperty('places');
    expect(found).not.toHaveProperty('next');
  });

  test('heeds what a bed may be told falsely', () => {
    const blindShare = (file: string): number =>
      (JSON.parse(said(['box-t'], { json: true }, file)[0] ?? '') as { blindShare: number }).blindShare;
    const allowing = (heating_unpack_per_bed_month: number): string =>
      siteFile({
        site: {
          ...{ id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
          thresholds: { heating_unpack_per_bed_month },
        },
        probes: [22, 58].flatMap((x) =>
          [14, 36].map((y) => ({
            id: `p-${x}-${y}`,
            placements: [{ bed: 'box-t', x, y, depth: 27, from: FROM }],
          })),
        ),
      });
    expect(blindShare(allowing(0.000001))).toBeGreaterThan(blindShare(allowing(0.1)));
  });

  test.each<[Partial<CoverageFlags>, RegExp]>([
    [{ power: '0' }, /--power: expected a number from 0.5 to 8, got "0"/],
    [{ power: 'x' }, /--power/],
    [{ days: '22' }, /--days: expected a number from 1 to 21, got "22"/],
    [{ days: '2.5' }, /--days: expected a whole number/],
  ])('%j is wrong usage', (flags, message) => {
    expect(() => said([], flags)).toThrow(message);
  });

  test('from the command line: exit 0 with the answer, 2 and one line for a bed or a file that is not there', async () => {
    const file = siteFile();
    const { code, stdout, stderr } = await run(['coverage', file, 'box-u', '--json']);
    expect([code, stderr]).toEqual([0, '']);
    expect(JSON.parse(stdout)).toMatchObject({ bed: 'box-u', power_W: 2, days: 7, share: 0 });
    const bed = await run(['coverage', file, 'box-z']);
    expect([bed.code, bed.stdout]).toEqual([2, '']);
    expect(bed.stderr).toBe('sandlarder: bed: expected one of box-t, box-u, got "box-z"\n');
    const none = await run(['coverage', '/nowhere/site.json']);
    expect([none.code, none.stderr]).toEqual([
      2,
      expect.stringContaining('expected a file that can be read'),
    ]);
    expect((await run(['coverage', '--help'])).stdout).toContain('--next');
  });

  test('is answered by a service that runs, of its own beds and probes', async () => {
    const data = temporaryDirectory();
    await run(['load', siteFile(), '--data', data]);
    const free = '127.0.0.1:0';
    const service = start(['serve', '--data', data, '--listen', free, '--mqtt-listen', free]);
    const [, url] = await service.said(/questions at (\S+)\/api/);
    const answer = await fetch(`${url}/api/beds/box-t/coverage?power=3`);
    expect(answer.status).toBe(200);
    const [line] = said(['box-t'], { json: true });
    const { share } = JSON.parse(line ?? '') as { share: number };
    const found = (await answer.json()) as { share: number; probes: number };
    expect(found).toMatchObject({ bed: 'box-t', probes: 2, shade: true });
    expect(found.share).toBeCloseTo(share, 3);
    expect(await service.stop()).toBe(0);
  });
});
