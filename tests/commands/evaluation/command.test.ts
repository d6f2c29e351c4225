import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type EvaluateFlags, evaluate } from '../../../services/commands/evaluate.js';
import { evaluateTask } from '../../../services/commands/evaluation/tasks.js';
import type { Episode } from '../../../services/core/model/alarm.js';
import { DAY_ms } from '../../../services/core/model/time.js';
import { loadSite } from '../../../services/load.js';
import { EVALUATION_SCENARIOS } from '../../../simulator/index.js';
import { openStores, temporaryDirectory } from '../../support/open.js';
import { run } from '../../support/processes.js';
import { makeSeason, SHORT_SEASON, siteOf } from '../../support/season.js';

/** A box with three probes for twelve days, a rot from the fourth on; the same file at every call. */
function scenarioFile(): string {
  const file = join(temporaryDirectory(), 'short.json');
  const scenario = {
    name: 'short',
    site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
    ...{ days: 12, everyMinutes: 60, deepGround_C: 21, shade: ['p09'] },
    weather: { means: [[0, 19]], swing_C: 11, dewPoint_C: 9 },
    beds: [
      {
        ...{ id: 'box-t', name: 'Box T', kind: 'box', steps: [{ length: 100, width: 50, height: 60 }] },
        roots: { count: 200, mass_kg: 55 },
        probes: [
          { id: 'p01', x: 30, y: 25, depth: 30 },
          { id: 'p02', x: 70, y: 25, depth: 30 },
          { id: 'p03', x: 50, y: 25, depth: 45 },
        ],
        rots: [{ startDay: 4, x: 38, y: 25, depth: 32, grown_W: 4, growth_days: 2 }],
      },
    ],
    faults: { probes: [{ kind: 'silent', probe: 'p03', startDay: 6 }] },
  };
  writeFileSync(file, JSON.stringify(scenario));
  return file;
}

describe('evaluate on simulated seasons', () => {
  test('as JSON: a line for each seed and bed in order, as one thread alone gives them, the totals last', async () => {
    const file = scenarioFile();
    const { code, stdout, stderr } = await run([
      'evaluate',
      file,
      '--seeds',
      '2',
      '--first-seed',
      '3',
      '--json',
    ]);
    expect([code, stderr]).toEqual([0, '']);
    const lines = stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(lines.map(({ seed, bed }) => [seed, bed])).toEqual([
      [3, 'box-t'],
      [4, 'box-t'],
      [undefined, undefined],
    ]);
    expect(lines[0]).toMatchObject({
      rots: [{ startDay: 4, grown_W: 4 }],
      faults: [{ fault: 'silent', probe: 'p03', recognised: true }],
      soundMonths: 4 / 30,
      cpu_ms: expect.any(Number),
      state_bytes: expect.any(Number),
    });
    expect(lines[2]).toMatchObject({
      totals: { seasons: 2, rots: 2, faults: 2, recognised: 2 },
      rules: [{ rule: 'fixed line' }, {}, {}, { rule: 'own level, neighbours' }, { found: 0, rots: 2 }],
    });
    const [alone] = evaluateTask({ scenario: file, seed: 4 });
    expect(lines[1]).toMatchObject(JSON.parse(JSON.stringify(alone?.score)) as object);
  });

  test('as a table: a row for the scenario, the totals, the rules, the cost', async () => {
    const { code, stdout } = await run(['evaluate', scenarioFile(), '--seeds', '1']);
    expect(code).toBe(0);
    for (const line of [
      /^scenario +found/m,
      /^all +\d\/1 /m,
      /^fixed line/m,
      /^hand, every second week/m,
      /KiB/,
    ])
      expect(stdout).toMatch(line);
  });

  test('"list" names the scenarios: twelve at the least', async () => {
    const { stdout } = await run(['evaluate', 'list', '--json']);
    expect(JSON.parse(stdout)).toEqual(Object.keys(EVALUATION_SCENARIOS));
    expect(Object.keys(EVALUATION_SCENARIOS).length).toBeGreaterThanOrEqual(12);
  });
});

describe('evaluate on what is wrong', () => {
  test.each<[string[], EvaluateFlags, RegExp]>([
    [['no such scenario'], {}, /scenario "no such scenario": expected a name/],
    [['toString'], {}, /scenario "toString": expected a name/],
    [['quiet', 'list'], {}, /scenario "list"/],
    [['quiet'], { seeds: '0' }, /--seeds: expected a number from 1 to 1000, got "0"/],
    [['quiet'], { seeds: '1.5' }, /--seeds: expected a whole number/],
    [['quiet'], { seeds: '1001' }, /--seeds: expected a number from 1 to 1000/],
    [['quiet'], { firstSeed: '-1' }, /--first-seed: expected a number/],
    [['quiet'], { bed: 'pit-a' }, /--bed: expected --data or --recorded with it/],
    [['quiet'], { data: '.' }, /expected no scenarios and no seeds/],
    [[], { data: '.', seeds: '5' }, /expected no scenarios and no seeds/],
    [[], { data: '.', recorded: 'x', site: 'y' }, /expected --data or --recorded, got both/],
    [[], { recorded: 'x' }, /expected --recorded and --site together/],
    [[], { site: 'x' }, /expected --recorded and --site together/],
  ])('%j with %j is wrong usage', async (names, flags, message) => {
    await expect(evaluate(names, flags)).rejects.toMatchObject({
      code: 'WRONG_USAGE',
      message: expect.stringMatching(message),
    });
  });

  test.each([
    [['quiet', '--seeds', '0'], /--seeds: expected a number/],
    [['--recorded', 'x', '--site', '/nowhere/site.json'], /can be read at \/nowhere\/site.json, got none/],
  ])('%j: one line and exit 2', async (args, sentence) => {
    const { code, stdout, stderr } = await run(['evaluate', ...args]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr.trim().split('\n')).toHaveLength(1);
    expect(stderr).toMatch(sentence);
  });

  test('a scenario file that is none is refused before anything is simulated', async () => {
    const file = join(temporaryDirectory(), 'scenario.json');
    writeFileSync(file, '{"name":"x"}');
    await expect(evaluate(['quiet', file], {})).rejects.toMatchObject({
      code: 'WRONG_USAGE',
      message: expect.stringContaining(file),
    });
  });
});

describe("evaluate on a site's own history", () => {
  function history() {
    const { directory, registry } = openStores();
    loadSite(directory, 'site', siteOf(SHORT_SEASON), 0);
    const day = (count: number): number => SHORT_SEASON.startAt + count * DAY_ms;
    const heating = (count: number): Episode => ({
      ...{ bed: 'pit-t', kind: 'heating', priority: 'high', action: 'unpack', subject: '' },
      ...{ raisedAt: day(count), clearedAt: day(count + 3), evidence: {}, place: null },
    });
    for (const count of [10, 20, 30])
      registry.alarms.put(`alarm-${count}`, 'test-ridge', heating(count), 'warm');
    registry.alarms.put('alarm-1', 'test-ridge', heating(1), 'warm');
    registry.alarms.withdraw('alarm-1');
    registry.alarms.acknowledge('alarm-10', { by: 'keeper', note: '', at: day(11) });
    const look = (count: number, found: 'rot' | 'nothing') => ({
      ...{ id: `look-${count}`, bed: 'pit-t', at: day(count), by: 'keeper', opened: true, repacked: false },
      found: [found],
    });
    for (const one of [look(12, 'rot'), look(22, 'nothing'), look(60, 'rot')])
      registry.inspections.add('test-ridge', one, 0);
    return directory;
  }

  test('says what was right, what nobody looked at, and what was found without an alarm', async () => {
    const directory = history();
    const { code, stdout } = await run(['evaluate', '--data', directory, '--json']);
    expect(code).toBe(0);
    const lines = stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(
      lines.slice(0, 3).map(({ verdict, acknowledgedAt }) => [verdict, acknowledgedAt !== null]),
    ).toEqual([
      ['right', true],
      ['wrong', false],
      ['unseen', false],
    ]);
    expect(lines[3]).toMatchObject({ bed: 'pit-t', unwarned: 'rot' });
    expect(lines[4]).toMatchObject({ totals: { alarms: 3, rightShare: 0.5, unwarned: 1 } });
  });

  test('only looks: the database is as it was', async () => {
    const directory = history();
    const file = join(directory, 'sandlarder.db');
    const before = readFileSync(file);
    const { code, stdout } = await run(['evaluate', '--data', directory, '--bed', 'pit-t']);
    expect(code).toBe(0);
    expect(stdout).toContain('Right: 1 of the 2 alarms that somebody looked into (50 %).');
    expect(readFileSync(file).equals(before)).toBe(true);
    expect(() => statSync(join(directory, 'serving.lock'))).toThrow(/ENOENT/);
  });

  test('a directory without a database is not made into one; a bed must be there', async () => {
    const empty = temporaryDirectory();
    const none = await run(['evaluate', '--data', empty]);
    expect(none.code).toBe(1);
    expect(none.stderr).toContain(`expected the database ${join(empty, 'sandlarder.db')}, found none`);
    expect(() => statSync(join(empty, 'sandlarder.db'))).toThrow(/ENOENT/);
    const bed = await run(['evaluate', '--data', history(), '--bed', 'pit-z']);
    expect(bed.code).toBe(2);
    expect(bed.stderr).toContain('--bed: expected one of pit-t, got "pit-z"');
  });

  test('a database of another schema, and a file that is no database', async () => {
    const { directory, database } = openStores();
    database.prepare('DELETE FROM schema_step WHERE step = 2').run();
    const older = await run(['evaluate', '--data', directory]);
    expect([older.code, older.stderr]).toEqual([1, expect.stringContaining('start the service on it once')]);
    const broken = temporaryDirectory();
    writeFileSync(join(broken, 'sandlarder.db'), 'no database at all, and long enough to be looked at');
    const { code, stderr } = await run(['evaluate', '--data', broken]);
    expect(code).toBe(1);
    expect(stderr.trim().split('\n')).toHaveLength(1);
  });
});

describe('evaluate on recorded readings', () => {
  function files(): [readings: string, site: string] {
    const directory = temporaryDirectory();
    const rows = makeSeason().messages.map(({ topic, payload }) => {
      const [{ bt, v }, { v: humidity }] = JSON.parse(payload) as [{ bt: number; v: number }, { v: number }];
      const time = new Date(bt * 1000).toISOString();
      return [topic.split('/')[4], time, v, humidity].join(',');
    });
    const readings = join(directory, 'readings.csv');
    writeFileSync(
      readings,
      ['probe,time,temperature,humidity', ...rows, `p77,${'2026-05-05T00:00:00Z'},20,`].join('\n'),
    );
    const site = join(directory, 'site.json');
    writeFileSync(site, JSON.stringify(siteOf(SHORT_SEASON)));
    return [readings, site];
  }

  test('prints the alarms in order of time, and whom it does not know', async () => {
    const [readings, site] = files();
    const { code, stdout } = await run(['evaluate', '--recorded', readings, '--site', site, '--json']);
    expect(code).toBe(0);
    const lines = stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    const alarms = lines.slice(0, -1);
    expect(alarms.map(({ raisedAt }) => raisedAt)).toEqual(alarms.map(({ raisedAt }) => raisedAt).sort());
    expect(alarms).toContainEqual(
      expect.objectContaining({ bed: 'pit-t', kind: 'heating', action: 'unpack', state: expect.any(String) }),
    );
    expect(lines.at(-1)).toMatchObject({ totals: { unknown: ['p77'], beds: 1, alarms: alarms.length } });
  });

  test('of a bed that the site does not have: refused', async () => {
    const [readings, site] = files();
    const { code, stderr } = await run([
      'evaluate',
      '--recorded',
      readings,
      '--site',
      site,
      '--bed',
      'pit-z',
    ]);
    expect([code, stderr]).toEqual([2, expect.stringContaining('expected one of pit-t, got "pit-z"')]);
  });
});
