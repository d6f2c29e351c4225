/** `sandlarder outlook` and `sandlarder season` against a running service. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type OutlookFlags, outlook } from '../../services/commands/keeping/outlook.js';
import { type SeasonFlags, season } from '../../services/commands/keeping/season.js';
import { DAY_ms, formatTime } from '../../services/core/model/time.js';
import { ledgerSite, uuid } from '../support/ledger.js';
import { textOfPdf } from '../support/pdf-text.js';
import { run } from '../support/processes.js';
import { servedSite } from '../support/served-site.js';

const FILLED = Date.now() - 40 * DAY_ms;
const FILLING = {
  id: uuid(1),
  at: formatTime(FILLED),
  by: 'A. Keeper',
  courses: [{ roots: 200 }],
  mass_kg: 60,
};
const ANOTHER = { ...FILLING, id: uuid(2), courses: [{ roots: 40 }], mass_kg: 12 };

async function launch() {
  const { directory, http } = await servedSite(ledgerSite());
  const post = async (path: string, body: object): Promise<number> =>
    (
      await fetch(`${http}/api/beds/${path}`, {
        ...{ method: 'POST', headers: { 'content-type': 'application/json' } },
        body: JSON.stringify(body),
      })
    ).status;
  expect(await post('pit-t/fillings', FILLING)).toBeLessThan(300);
  expect(await post('box-t/fillings', ANOTHER)).toBeLessThan(300);
  const said = async (make: (say: (line: string) => void) => Promise<void>): Promise<string[]> => {
    const lines: string[] = [];
    await make((line) => lines.push(line));
    return lines;
  };
  return {
    directory,
    http,
    outlooks: (bed: string, flags: Partial<OutlookFlags> = {}) =>
      said((say) => outlook(bed, { months: '3', service: http, ...flags }, say)),
    seasons: (beds: readonly string[], flags: Partial<SeasonFlags> = {}) =>
      said((say) => season(beds, { service: http, ...flags }, say)),
  };
}

describe('outlook and season', () => {
  test('say what will be left, what it feeds, what holding asks for; what was; write the page and the file', async () => {
    const { outlooks, seasons, directory, http } = await launch();
    const ahead = await outlooks('pit-t', {
      persons: '4',
      kgPerWeek: '1.5',
      price: '12.5',
      cost: '30',
      expect: '14',
    });
    expect(ahead[0]).toMatch(
      /^Pit T \(pit-t\): 200 roots left on \d{4}-\d\d-\d\d, filled on \d{4}-\d\d-\d\d$/,
    );
    expect(ahead[2]).toMatch(/^ {2}\d{4}-\d\d-\d\d: \d+ to \d+, likely \d+; at 22\.0 °C \(no readings\)$/);
    expect(ahead.join('\n')).toMatch(
      /\nFood: [\d.]+ to [\d.]+ weeks, likely [\d.]+, at 20\.0 roots a week\n/,
    );
    expect(ahead.join('\n')).toMatch(
      /\nHold or sell, at your price of 12\.5 a root now\..*\n {2}after 1 month: by \d+ % \(\d+ % if few are lost, \d+ % if many\), to [\d.]+ a root; at what you expect /,
    );
    expect(ahead.join('\n')).toContain('judgement: 18 % in 3 months');
    expect((await outlooks('pit-t')).join('\n')).not.toMatch(/price|Food/);

    const [html, pdf] = [join(directory, 'season.html'), join(directory, 'season.pdf')];
    const lines = await seasons(['pit-t'], { html, pdf });
    expect(lines.slice(1)).toEqual([
      expect.stringMatching(/^Pit T \(pit-t\): filled on .*, kept 40 days$/),
      '  roots: 200 in; none out; 200 left',
      '  not lost by the last look: not known, no roots were counted',
      '  warmth: not known',
      '  sprouts: not known, nobody looked into the bed',
      expect.stringMatching(/^ {2}alarms: \d+, of which right 0; nobody looked after \d+$/),
      `Written: ${html}`,
      `Written: ${pdf}`,
    ]);
    expect(readFileSync(html, 'utf8')).toContain('<h1>Season of Pit T</h1>');
    expect(textOfPdf(readFileSync(pdf))).toContain('Season of Pit T');

    const both = JSON.parse((await seasons(['pit-t', 'box-t'], { json: true }))[0] ?? '');
    expect(both.beds.map(({ filled }: { filled: number }) => filled)).toEqual([200, 40]);
    const shell = await run(['season', 'pit-t', 'box-t', '--service', http]);
    expect([shell.code, shell.stderr]).toEqual([0, '']);
    expect(shell.stdout).toMatch(/^Season of 2 beds, up to /);
    const shellAhead = await run(['outlook', 'pit-t', '--months', '1', '--json', '--service', http]);
    expect(JSON.parse(shellAhead.stdout)).toMatchObject({ bed: 'pit-t', roots: 200 });
  });

  test('that cannot be are refused, and nothing is written', async () => {
    const { outlooks, seasons, directory } = await launch();
    const usage = async (asked: Promise<unknown>, message: RegExp, code = 'WRONG_USAGE') =>
      expect(asked).rejects.toMatchObject({ code, message: expect.stringMatching(message) });
    await usage(outlooks('pit-t', { months: '13' }), /^--months/);
    await usage(outlooks('pit-t', { persons: '4' }), /^--persons: expected it together/);
    await usage(outlooks('pit-t', { kgPerWeek: '4' }), /^--persons/);
    await usage(outlooks('pit-t', { persons: '4', kgPerWeek: '4', rootsPerWeek: '4' }), /^--persons/);
    await usage(outlooks('pit-t', { price: '0' }), /^--price/);
    await usage(outlooks('pit-t', { price: 'cheap' }), /^--price/);
    await usage(outlooks('pit-t', { price: '1', priceKg: '1' }), /^--price: expected it or --price-kg/);
    await usage(outlooks('pit-t', { expect: '1' }), /^--price: expected the price of now/);
    await usage(outlooks('pit-t', { price: '1', interest: '101' }), /^--interest/);
    await usage(outlooks('pit-z'), /no bed has the id "pit-z"/, 'NOT_FOUND');
    await usage(seasons(['pit-t'], { to: 'May' }), /^--to: expected an RFC 3339 time/);
    await usage(
      seasons(['pit-t'], { html: '/nowhere/a.html' }),
      /^--html: expected a file that can be written at \/nowhere\/a\.html, got a folder that is not there$/,
    );
    await usage(seasons(['pit-t', 'pit-t']), /each once, got "pit-t" twice/, 'BAD_REQUEST');
    const pdf = join(directory, 'none.pdf');
    await usage(seasons(['pit-t', 'pit-z'], { pdf }), /no bed has the id "pit-z"/, 'NOT_FOUND');
    await usage(
      seasons(['pit-t'], { pdf, to: '2020-01-01T00:00:00Z' }),
      /expected a filling by then/,
      'TOO_FEW_SAMPLES',
    );
    expect(existsSync(pdf)).toBe(false);
  });
});
