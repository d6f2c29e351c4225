/** `sandlarder calibrate` against a running service. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { pointBody } from '../../services/commands/calibrate/point.js';
import { run } from '../support/processes.js';
import { servedSite } from '../support/served-site.js';

const SITE = {
  version: 1,
  site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
  beds: [
    {
      ...{ id: 'box-t', name: 'Box T', kind: 'box', filled: '2026-05-04T08:00:00Z' },
      steps: [{ length: 100, width: 60, height: 60 }],
    },
  ],
  probes: [
    {
      id: 'p01',
      placements: [{ bed: 'box-t', x: 50, y: 30, depth: 30, from: '2026-05-04T08:00:00Z' }],
    },
    { id: 'p02' },
  ],
};

const WHO = ['--site', 'test-ridge', '--by', 'A. Technician', '--reference', 'Glass thermometer'];
const PAIRS = [
  'probe,indicated,reference,uncertainty',
  'p01,0.31,0.00,0.05',
  'p01,10.42,10.05,0.05',
  'p01,20.38,20.00,0.05',
  'p01,30.55,30.10,0.05',
].join('\n');

async function launch(credentials: NodeJS.ProcessEnv = {}) {
  const { directory, file, http, ask } = await servedSite(SITE, { environment: credentials });
  const calibrate = (...args: string[]) => ask('calibrate', ...args);
  const failing = async (...args: string[]) => {
    const { code, stdout, stderr } = await calibrate(...args);
    expect(stdout).toBe('');
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    return [code, stderr.replace(/^sandlarder: /, '').trimEnd()] as const;
  };
  return { directory, file, calibrate, failing, http };
}

describe('bench work', () => {
  test('is opened, looked at and given up; what it cannot do is said in a line', async () => {
    const { calibrate, failing } = await launch();
    expect(await failing('open', 'p01', ...WHO)).toEqual([
      1,
      expect.stringMatching(
        /^probe p01: expected one that lies in no bed and hangs in no shade, but by the site description it is in bed "box-t"/,
      ),
    ]);
    expect(await failing('open', 'p77', ...WHO)).toEqual([1, expect.stringContaining('got "p77"')]);
    const opened = await calibrate('open', 'p02', ...WHO, '--json');
    const { id } = JSON.parse(opened.stdout) as { id: string };
    expect(await failing('capture', id)).toEqual([
      1,
      expect.stringContaining('expected a point to have begun'),
    ]);
    const point = await calibrate('point', id, '--ice');
    expect(point.stdout).toContain('point 1: ice point, 0.000 °C (k = 1: 0.050); 0 of 1 captured');
    expect(point.stdout).toContain('Caution: Keep the mains away from the water');
    const looked = await calibrate('look', id);
    expect(looked.stdout).toMatch(
      /p02 +- +- +- +0 +no reading yet, not judged before 5 min; about 5 min more/,
    );
    expect(looked.stdout).not.toContain('Caution');
    expect(await failing('capture', id)).toEqual([1, expect.stringContaining('p02: too few readings yet')]);
    expect(await failing('finish', id)).toEqual([1, expect.stringMatching(/^probe p02: .*name the others/)]);
    expect((await calibrate('benches')).stdout).toContain(`Bench ${id}, open: temperature of 1 probe, p02`);
    const dropped = await calibrate('drop-point', id);
    expect(dropped.stdout).not.toContain('point 1');
    expect(dropped.stdout).toContain('The point was dropped.');
    expect(await failing('drop-point', id)).toEqual([
      1,
      expect.stringContaining('expected a point to have begun'),
    ]);
    expect((await calibrate('give-up', id, 'lunch')).stdout).toContain(`Bench ${id}, given-up`);
    expect(await failing('point', id, '--ice')).toEqual([1, expect.stringContaining('but it is given up')]);
    expect((await calibrate('benches')).stdout).toBe('No open benches.\n');
  });
});

describe('pairs from a file', () => {
  test('become a calibration in force, with its certificate', async () => {
    const { directory, file, calibrate } = await launch();
    const pairs = ['pairs', file('pairs.csv', PAIRS), ...WHO, '--quantity', 'temperature'];
    const done = ['--done', '2026-05-05T08:00:00Z'];
    const dry = (await calibrate(...pairs, ...done, '--dry-run')).stdout;
    expect(dry).toContain('Nothing was kept: a dry run.');
    expect(dry).toContain('step of the probe not known, not counted');
    expect(dry).not.toContain('certificate');
    expect((await calibrate('list')).stdout).toBe('No calibrations.\n');
    const kept = await calibrate(...pairs, ...done);
    expect(kept.stdout).toMatch(
      /^p01, temperature, from 2026-05-05T08:00:00Z: corrected = shown - 0\.3\d\d °C/,
    );
    expect(kept.stdout).toContain('(in force)');
    expect(kept.stdout).toContain('certificate: sandlarder calibrate certificate');
    expect((await calibrate('list', '--long')).stdout).toBe(kept.stdout);
    const [head, line, ...more] = (await calibrate('list', '--probe', 'p01')).stdout.trimEnd().split('\n');
    expect(head).toMatch(/^probe +quantity +from +done +by +form +U \(k = 2\) +id$/);
    expect(line).toMatch(
      /^p01 +temperature +2026-05-05T08:00:00Z +2026-05-05T08:00:00Z +A\. Technician +offset +0\.\d+ °C +in force +\S+$/,
    );
    expect(more).toEqual([]);
    const [record] = JSON.parse((await calibrate('list', '--json')).stdout) as { id: string }[];
    const id = record?.id ?? '';
    for (const [out, begins] of [
      ['c.pdf', '%PDF-'],
      ['c.html', '<!doctype html>'],
    ] as const) {
      expect((await calibrate('certificate', id, '--out', join(directory, out))).code).toBe(0);
      expect(readFileSync(join(directory, out), 'latin1').toLowerCase()).toMatch(
        new RegExp(`^${begins.toLowerCase()}`),
      );
    }
    const wrong = ['--supersedes', id, '--resolution', '0.1', '--leave-out', 'p01:3:lid was open'];
    const fixed = (await calibrate(...pairs, ...done, ...wrong)).stdout;
    expect(fixed).toContain('line 3 was left out: lid was open');
    expect(fixed).toContain('step of the probe: 0.1 °C, as given');
    expect((await calibrate('list')).stdout).toMatch(new RegExp(`superseded by \\S+ +${id}$`, 'm'));
    expect((await calibrate('due')).stdout).toContain('test-ridge p01 temperature: due 2027-05-05');
  });

  test('that are not understood keep nothing, and every bad line is named', async () => {
    const { file, calibrate, failing } = await launch();
    const bad = file('bad.csv', `${PAIRS}\np01,warm,20,0.05\np01,20,20\n`);
    const args = [bad, ...WHO, '--quantity', 'temperature', '--done', '2026-05-05T08:00:00Z'];
    const { code, stdout, stderr } = await calibrate('pairs', ...args);
    expect(code).toBe(2);
    expect(stderr).toMatch(
      /bad\.csv, line 6: indicated: expected a number with a decimal point, got "warm"; nothing was kept, 2 bad lines/,
    );
    expect(stdout).toMatch(/bad\.csv, line 7: /);
    expect((await calibrate('list')).stdout).toBe('No calibrations.\n');
    const early = [
      file('pairs.csv', PAIRS),
      ...WHO,
      '--quantity',
      'temperature',
      '--done',
      '2026-05-01T08:00:00Z',
    ];
    expect(await failing('pairs', ...early)).toEqual([
      1,
      expect.stringContaining('from: expected a time since which probe p01 is known, 2026-05-04T08:00:00Z'),
    ]);
    expect(await failing('list', '--probe', 'zz')).toEqual([1, expect.stringContaining('got "zz"')]);
    const still = ['--from', '2026-05-05T08:00:00Z', '--to', '2099-05-06T08:00:00Z'];
    const beside = ['beside', 'p01', 'p02', ...WHO.slice(0, 4), ...still];
    expect(await failing(...beside)).toEqual([1, expect.stringContaining('expected at most 31 days')]);
    const nowhere = [join('no', 'such.csv'), ...WHO, '--done', '2026-05-05T08:00:00Z'];
    expect(await failing('pairs', ...nowhere)).toEqual([
      2,
      expect.stringContaining('expected a file that can be read'),
    ]);
  });
});

describe('a service', () => {
  test('that asks for a password is given the one of the environment', async () => {
    const secret = { SANDLARDER_HTTP_USER: 'station', SANDLARDER_HTTP_PASSWORD: 'long enough' };
    const { calibrate, http } = await launch(secret);
    expect((await calibrate('list')).stdout).toBe('No calibrations.\n');
    const without = await run(['calibrate', 'list', '--service', http]);
    expect(without).toMatchObject({ code: 1, stderr: expect.stringContaining('user') });
  });

  test.each([
    ['http://127.0.0.1:1', 1, /expected a service at http:\/\/127\.0\.0\.1:1, got no answer/],
    ['127.0.0.1:8080', 2, /--service: expected an address such as http:\/\/127\.0\.0\.1:8080/],
    ['ftp://127.0.0.1/', 2, /--service: expected an address/],
  ])('at %s', async (service, code, message) => {
    expect(await run(['calibrate', 'list', '--service', service])).toMatchObject({
      code,
      stderr: expect.stringMatching(message),
    });
  });
});

describe('a point', () => {
  test.each([
    [{ ice: true }, { source: 'ice-point' }],
    [{ boiling: '850' }, { source: 'boiling-point', pressure_hPa: 850, pressureUncertainty_hPa: 1 }],
    [
      { salt: 'sodium-chloride', at: '25' },
      { source: 'salt', salt: 'sodium-chloride', temperature_C: 25, temperatureUncertainty_C: 0.3 },
    ],
    [
      { reading: '24.98', uncertainty: '0.05', unit: 'Cel' },
      { source: 'instrument', reference: 24.98, uncertainty: 0.05, unit: 'Cel' },
    ],
  ])('%o', (flags, body) => {
    expect(pointBody(flags)).toEqual(body);
  });

  test.each([
    [{}, /expected one of --ice, --boiling, --salt and --reading, got none/],
    [{ ice: true, boiling: '850' }, /got several/],
    [{ boiling: 'high' }, /--boiling: expected a number/],
    [{ salt: 'sodium-chloride' }, /expected --at with the temperature of the jar/],
    [{ reading: '25' }, /expected --uncertainty with the standard uncertainty/],
    [
      { salt: 'sodium-chloride', at: '25', uncertainty: '0.5' },
      /--uncertainty: expected only with --ice or --boiling or --reading, got it with --salt: that of a salt is worked out from --at-uncertainty and --apart/,
    ],
    [{ ice: true, unit: 'K' }, /--unit: expected only with --reading, got it with --ice/],
    [{ boiling: '850', at: '25' }, /--at: expected only with --salt or --reading/],
    [{ reading: '25', uncertainty: '1', apart: '1' }, /--apart: expected only with --salt/],
    [{ ice: true, atUncertainty: '1' }, /--at-uncertainty: expected only with --salt/],
  ])('%o is refused', (flags, message) => {
    expect(() => pointBody(flags)).toThrow(message);
  });
});
