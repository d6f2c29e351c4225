/** `sandlarder fill`, `look` and `stock` against a running service. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ledgerSite } from '../support/ledger.js';
import { temporaryDirectory } from '../support/open.js';
import { run } from '../support/processes.js';
import { servedSite } from '../support/served-site.js';

/** Nobody listens there. */
const AWAY = 'http://127.0.0.1:1';

interface Said {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

async function launch() {
  const { path: file, data, http, ask: say } = await servedSite(ledgerSite());
  const json = async (...args: string[]) => JSON.parse((await say(...args, '--json')).stdout);
  return { file, say, json, http, data };
}

const FILL = [
  'fill',
  'pit-t',
  '--course',
  '200:55',
  '150:40',
  '--by',
  'Wanja',
  '--at',
  '2026-05-04T08:00:00Z',
];
const LOOK = ['look', 'pit-t', '--by', 'Wanja', '--at', '2026-05-09T08:00:00Z'];
const lineOf = ({ stderr }: Said): string => {
  expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  return stderr;
};

describe('from the filling to the last root', () => {
  test('fill, look and stock write down, and say what follows', async () => {
    const { say, json, file } = await launch();
    const filled = await say(...FILL, '--probe', 'p01:75,40,10', '--cultivar', 'orange');
    expect([filled.code, filled.stderr]).toEqual([0, '']);
    expect(filled.stdout).toMatch(/^Written down: pit-t filled 2026-05-04 08:00 UTC with 350 roots, 95 kg/);
    expect(filled.stdout).toMatch(/^p01: 10 cm deep it should show \d+ %/m);
    expect(filled.stdout).toMatch(/^Caution: Trenches can cave in/m);
    expect((await say('fill', 'pit-t', '--check')).stdout).toMatch(
      /^p01 cannot be told yet: of the first 48 hours 0/,
    );

    writeFileSync(file('a.jpg'), Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1]));
    const looked = await say(
      ...LOOK,
      '--warm',
      'warm',
      '--looked',
      '40',
      '--rotten',
      '2',
      '--out',
      'eaten:10',
      'thrown:2:rotten',
      '--photo',
      file('a.jpg'),
    );
    expect([looked.code, looked.stderr]).toEqual([0, '']);
    expect(looked.stdout).toMatch(
      /^Written down: pit-t, 2026-05-09 08:00 UTC, rot \(.*\)\. 338 roots left by the ledger\./,
    );
    expect(looked.stdout).toMatch(/^Do: Unpack the bed at once/m);
    expect(looked.stdout).toMatch(/^Do: Throw away every mouldy, bitter or rotten root, the whole root/m);
    expect(looked.stdout).toMatch(/^Caution: Call the extension officer/m);

    const sold = await json(
      'stock',
      'pit-t',
      'out',
      '20',
      '--reason',
      'sold',
      '--mass',
      '6',
      '--by',
      'Wanja',
    );
    expect(sold).toMatchObject({ kind: 'out', reason: 'sold', roots: 20, mass_kg: 6, left: 318 });
    const back = await say(
      'stock',
      'pit-t',
      'counter',
      sold.id,
      '5',
      '--reason',
      'were brought back',
      '--by',
      'Wanja',
    );
    expect(back.stdout).toMatch(/^Written down: counter 5, were brought back \(.*\)\. 323 roots left\.$/m);
    const shown = await say('stock', 'pit-t', '--persons', '4', '--roots-per-week', '10', '--months', '3');
    expect(shown.stdout).toMatch(/^pit-t: 323 roots left; since 2026-05-04 08:00 UTC:$/m);
    expect(shown.stdout).toMatch(/^ {2}lost by rot: 5 % of the roots \(1\.4 % to 17 %\)/m);
    expect(shown.stdout).toMatch(/^Weeks of food: \d/m);
    expect(shown.stdout).toMatch(/^Roots to sell at the end of each month: \d/m);
  });

  test('look --due says which beds are to be looked into, and why', async () => {
    const { say } = await launch();
    await say(...FILL);
    const { stdout, code } = await say('look', '--due');
    expect(code).toBe(0);
    expect(stdout).toMatch(/^pit-t \(Pit T\): due since 2026-05-18 08:00 UTC: 14 days after it was filled$/m);
    expect(stdout).toMatch(/^box-t \(Box T\): no look is due: not filled, or empty$/m);
    expect(lineOf(await say('look', 'pit-z', '--due'))).toMatch(/no bed has the id "pit-z"/);
  });

  test('a description that is loaded again keeps what was written down at the bed, and says so', async () => {
    const { say, file, data, json } = await launch();
    await say(...FILL);
    writeFileSync(file('site.json'), JSON.stringify(ledgerSite({ filled: '2026-05-04T06:00:00Z' })));
    const loaded = await run(['load', file('site.json'), '--data', data]);
    expect(loaded.code).toBe(0);
    expect(loaded.stderr).toMatch(/^note: pit-t stays filled since 2026-05-04T08:00:00Z/);
    expect((await json('look', '--due'))[0].dueAt).toBe('2026-05-18T08:00:00Z');
  });
});

describe('while the service is out of reach', () => {
  test('records are kept in a file, and sent from it later, once', async () => {
    const { say, json, file } = await launch();
    const kept = file('kept.jsonl');
    const away = (...args: string[]): Promise<Said> => run([...args, '--service', AWAY]);
    expect(lineOf(await away(...FILL))).toMatch(
      /expected a service at http:\/\/127\.0\.0\.1:1, got no answer/,
    );
    writeFileSync(file('b.jpg'), Buffer.from([0xff, 0xd8, 0xff, 0xe0, 2]));
    for (const args of [
      FILL,
      [...LOOK, '--looked', '9', '--out', 'sold:4', '--photo', file('b.jpg')],
      ['stock', 'pit-t', 'out', '6', '--reason', 'fed', '--by', 'Wanja'],
      ['stock', 'box-t', 'in', '30', '--by', 'Wanja'],
    ]) {
      const said = await away(...args, '--keep', kept);
      expect([said.code, said.stderr]).toEqual([0, '']);
      expect(said.stdout).toMatch(/out of reach: kept in .*--from-file/);
    }
    expect(readFileSync(kept, 'utf8').trimEnd().split('\n')).toHaveLength(4);
    const first = await say('stock', '--from-file', kept);
    expect(first).toMatchObject({ code: 0, stderr: '' });
    expect(first.stdout).toBe(
      'pit-t: 3 new, 0 there already; 340 roots left\nbox-t: 1 new, 0 there already; 30 roots left\n',
    );
    expect(await json('look', '--from-file', kept)).toEqual([
      { bed: 'pit-t', added: 0, there: 3, left: 340 },
      { bed: 'box-t', added: 0, there: 1, left: 30 },
    ]);
  });

  test('what could never be taken in is not kept', async () => {
    const file = join(temporaryDirectory(), 'kept.jsonl');
    const said = await run([...LOOK, '--rotten', '2', '--keep', file, '--service', AWAY]);
    expect(said.code).toBe(2);
    expect(lineOf(said)).toMatch(/looked: expected how many roots were looked at/);
    expect(() => readFileSync(file)).toThrow(/ENOENT/);
  });

  test('a bed of which one record is refused is left out whole; the others are taken in', async () => {
    const { say, file } = await launch();
    const entry = (bed: string, id: number, kind: string, roots: number) => ({
      ...{ record: 'stock', bed },
      body: {
        ...{
          id: `00000000-0000-4000-8000-00000000000${id}`,
          at: `2026-05-0${3 + id}T08:00:00Z`,
          by: 'W',
          roots,
          kind,
        },
        reason: kind === 'in' ? 'filled' : 'sold',
      },
    });
    const lines = [entry('pit-t', 1, 'in', 5), entry('pit-t', 2, 'out', 9), entry('box-t', 3, 'in', 7)];
    writeFileSync(file('k.jsonl'), lines.map((line) => JSON.stringify(line)).join('\n'));
    const said = await say('fill', '--from-file', file('k.jsonl'));
    expect(said).toMatchObject({ code: 1, stdout: 'box-t: 1 new, 0 there already; 7 roots left\n' });
    expect(lineOf(said)).toMatch(/pit-t: nothing was taken in: stock of bed pit-t: .* the 5 roots/);
  });
});

test('what is wrong is said in one line, with 2 for wrong usage and 1 where the service refuses', async () => {
  const { say } = await launch();
  await say(...FILL);
  const cases: [string[], number, RegExp][] = [
    [['look', 'pit-t', '--by', 'W'], 2, /expected what was found/],
    [['look', '--found', 'rot', '--by', 'W'], 2, /<bed>: expected a value/],
    [['look', 'pit-z', '--by', 'W', '--found', 'rot'], 1, /no bed has the id "pit-z"/],
    [
      ['fill', 'pit-t', '--by', 'W', '--course', '9', '--probe', 'p77:75,40,10'],
      1,
      /expected a probe of site/,
    ],
    [['fill', 'pit-z', '--check'], 1, /no bed has the id "pit-z"/],
    [['stock', 'pit-t', 'out', '9000', '--by', 'W', '--reason', 'sold'], 1, /than the 350 roots/],
    [['stock', 'pit-t', '--persons', '3'], 1, /persons/],
    [['stock', 'pit-t', '--from-file', 'x.jsonl'], 2, /--from-file: expected neither a bed/],
    [['stock', '--from-file', 'nowhere.jsonl'], 2, /can be read at nowhere\.jsonl, got none/],
  ];
  for (const [args, code, sentence] of cases) {
    const said = await say(...args);
    expect([args, said.code, said.stdout]).toEqual([args, code, '']);
    expect(lineOf(said)).toMatch(sentence);
  }
});
