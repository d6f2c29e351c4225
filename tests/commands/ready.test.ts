/** `sandlarder ready` against a running service with a bed that is not filled yet. */
import { describe, expect, test } from 'vitest';
import { type ReadyFlags, ready } from '../../services/commands/keeping/ready.js';
import { BAD_ROOTS } from '../../services/core/model/readiness.js';
import { keepingSite } from '../support/keeping-site.js';
import { servedSite } from '../support/served-site.js';

const ANSWERS = {
  curing: { days: 5, temperature_C: 30, humidity_RH: 90 },
  woundsHealed: true,
  roofOver: true,
  nextLook: { by: 'A. Keeper', at: '2026-12-05T06:00:00Z' },
};

async function launch() {
  const { file, http, ask } = await servedSite(keepingSite());
  const lines: string[] = [];
  return {
    file,
    http,
    shell: (...args: string[]) => ask('ready', ...args),
    /** With somebody at the terminal who gives these answers, by a part of the question. */
    asked: async (flags: Partial<ReadyFlags>, replies?: Readonly<Record<string, string>>) => {
      lines.length = 0;
      const questions: string[] = [];
      await ready(
        'pit-k',
        { service: http, ...flags },
        {
          say: (line) => lines.push(line),
          ask:
            replies &&
            (async (question) => {
              questions.push(question);
              return replies[Object.keys(replies).find((part) => question.includes(part)) ?? ''] ?? '';
            }),
        },
      );
      return { lines: [...lines], questions };
    },
  };
}

describe('ready', () => {
  test('shows each item with measure, limit, reason and source; takes answers by flags and file; keeps an override', async () => {
    const { shell, file } = await launch();
    const shown = await shell('pit-k');
    expect([shown.code, shown.stderr]).toEqual([0, '']);
    expect(shown.stdout).toMatch(/^pit-k: Not ready: /);
    expect(shown.stdout).toMatch(
      /\? {3}curing: not answered \(wanted: 4 to 10 days; .*\) \[hand\]\n +How long were .* Why: curing closes wounds; .*\n +curing_least_days: published/,
    );
    expect(shown.stdout).toContain('cave in');

    const answers = file('answers.json', JSON.stringify(ANSWERS));
    const flags = [
      '--yes',
      'roots-cooled',
      'ditch,poles',
      '--not',
      'rodents',
      '--sorted',
      'all',
      '--pit-open',
      '4',
    ];
    const sand = [
      '--sieve',
      '2:10',
      '0.5:300',
      '0.25:500',
      '0.075:190',
      '--pan',
      '2',
      '--wet',
      '801',
      '--dry',
      '800',
    ];
    const told = await shell(
      'pit-k',
      '--answers',
      answers,
      ...flags,
      ...sand,
      '--container',
      '300',
      '--by',
      'A. Keeper',
      '--json',
    );
    expect([told.code, told.stderr]).toEqual([0, '']);
    const record = JSON.parse(told.stdout);
    expect(record.answers).toMatchObject({
      ...ANSWERS,
      ...{ rootsCooled: true, ditchDug: true, polesFirm: true, rodentsKeptOut: false, pitOpen_days: 4 },
      rootsSorted: [...BAD_ROOTS],
    });
    expect(record.notMet).toContain('rodents');
    expect(record.notMet).not.toContain('sand-grains');

    const over = await shell('pit-k', '--override', 'Rain comes tonight', '--by', 'A. Owner');
    expect(over.code).toBe(0);
    expect(over.stdout).toContain('A. Owner has it filled all the same');
    expect((await shell('pit-k')).stdout).toMatch(
      /Last answered by hand: A\. Owner, .*\n {2}A\. Owner has it filled/,
    );
  });

  test('asks short questions at a terminal, of what is open, and takes what was not understood again', async () => {
    const { asked } = await launch();
    const { lines, questions } = await asked(
      {},
      {
        'Who answers': 'A. Keeper',
        'How long were': '5 30 90',
        wounds: 'yes',
        'looked at': 'y',
        roof: 'n',
        ditch: 'perhaps',
        'open and dry': '4',
        'looks into': '7',
      },
    );
    expect(questions.filter((question) => question.includes('ditch'))).toHaveLength(3);
    expect(lines.filter((line) => line === '  expected y or n')).toHaveLength(3);
    expect(lines.at(-1)).toMatch(/^Kept: \S+, by A\. Keeper, /);
    expect(lines.join('\n')).toMatch(/ok {2}curing: 5 days, 30 °C, 90 %RH/);
    expect(lines.join('\n')).toMatch(/NOT roof: no/);
    expect(lines.join('\n')).toMatch(/\? {3}ditch: not answered/);
    const again = await asked({ by: 'A. Keeper' }, { ditch: 'y' });
    expect(again.questions.join()).not.toMatch(/Who answers|How long were/);
    expect(again.lines.join('\n')).toMatch(/ok {2}ditch: yes/);
  });

  test('keeps nothing where nobody gives a name or an answer, or only the list was asked for', async () => {
    const { asked, http } = await launch();
    await asked({}, {});
    await asked({}, { 'Who answers': 'A. Keeper' });
    expect((await asked({ show: true }, { 'Who answers': 'A. Keeper' })).questions).toEqual([]);
    expect((await asked({ json: true }, { 'Who answers': 'A. Keeper' })).questions).toEqual([]);
    expect(await (await fetch(`${http}/api/beds/pit-k/readiness/records`)).json()).toEqual([]);
  });

  test('that cannot be is refused, and nothing is kept', async () => {
    const { asked, shell, file, http } = await launch();
    const by = 'A. Keeper';
    const samples = { dry: ['800'], container: '300', by };
    const cases: [Partial<ReadyFlags>, string, RegExp][] = [
      [{ yes: ['roof'] }, 'WRONG_USAGE', /^--by: expected who answers/],
      [{ override: 'Rain comes tonight', by: ' ' }, 'WRONG_USAGE', /^--by/],
      [
        { override: 'Rain', by },
        'WRONG_USAGE',
        /^--override: expected a reason of 10 to 500 characters, got 4/,
      ],
      [{ yes: ['weather'], by }, 'WRONG_USAGE', /^--yes: expected some of .*wounds-healed.* got "weather"/],
      [{ not: ['curing'], by }, 'WRONG_USAGE', /^--not/],
      [{ yes: ['roof'], not: ['roof'], by }, 'WRONG_USAGE', /^--yes and --not: .* got roof in both/],
      [
        { inSand: ['p99'], by },
        'BAD_REQUEST',
        /^probesInSand: expected probes of bed ".*" \(.*\), got "p99"/,
      ],
      [{ answers: file('d.json', '{"roofover":true}'), by }, 'WRONG_USAGE', /^answers: Unrecognized key/],
      [{ curedAt: '30', by }, 'WRONG_USAGE', /^--cured-days/],
      [{ curedDays: '-1', by }, 'WRONG_USAGE', /^--cured-days/],
      [{ sorted: 'small', by }, 'WRONG_USAGE', /^--sorted: expected all, or some of cut/],
      [{ pitOpen: 'long', by }, 'WRONG_USAGE', /^--pit-open/],
      [{ nextLook: '2026-12-01', nextBy: 'X', by }, 'WRONG_USAGE', /nextLook\.at: expected an RFC 3339 time/],
      [{ nextBy: 'X', by }, 'WRONG_USAGE', /^--next-look and --next-by/],
      [{ inSand: ['P 1'], by }, 'WRONG_USAGE', /probesInSand/],
      [{ wet: '801', by }, 'WRONG_USAGE', /^--wet, --dry and --container/],
      [{ answers: '/nowhere.json', by }, 'WRONG_USAGE', /^--answers: expected a file .* at \/nowhere\.json/],
      [{ answers: file('a.json', '[]'), by }, 'WRONG_USAGE', /a\.json: expected an object/],
      [{ answers: file('b.json', '{'), by }, 'WRONG_USAGE', /b\.json: expected JSON/],
      [{ answers: file('c.json', '{"roofOver":"yes"}'), by }, 'WRONG_USAGE', /answers\.roofOver/],
      [{ wet: '700', ...samples }, 'OUT_OF_DOMAIN', /must not be above that moist/],
      [{ service: 'http://127.0.0.1:1', show: true }, 'RECEIVER_UNAVAILABLE', /expected a service at/],
    ];
    for (const [flags, code, message] of cases)
      await expect(asked(flags), JSON.stringify(flags)).rejects.toMatchObject({
        code,
        message: expect.stringMatching(message),
      });
    const strange = await shell('pit-z');
    expect(strange).toMatchObject({ code: 1, stdout: '', stderr: 'sandlarder: no bed has the id "pit-z"\n' });
    expect((await shell()).code).toBe(2);
    expect(await (await fetch(`${http}/api/beds/pit-k/readiness/records`)).json()).toEqual([]);
  });
});
