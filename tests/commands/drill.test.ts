/** `sandlarder drill` against a running service that hands short messages to a local gateway. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { Receiver, withStatus } from '../senders/receiver.js';
import type { run } from '../support/processes.js';
import { ownFolder, servedSite } from '../support/served-site.js';

const SITE = {
  version: 1,
  site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
  beds: [
    {
      ...{ id: 'box-t', name: 'Box T', kind: 'box', filled: '2026-05-04T08:00:00Z', keeper: 'keeper-t' },
      ...{ steps: [{ length: 100, width: 60, height: 60 }], escalation: [{ to: 'lead-t', after_min: 30 }] },
    },
  ],
  people: [
    { id: 'keeper-t', name: 'Keeper', language: 'sw', reach: [{ via: 'sms', to: '+260970000001' }] },
    { id: 'lead-t', name: 'Lead', reach: [{ via: 'email', to: 'lead@store.example' }] },
    { id: 'other-t', name: 'Other', reach: [{ via: 'sms', to: '+260970000003' }] },
  ],
};

async function launch(): Promise<{
  gateway: Receiver;
  drill: (...args: string[]) => ReturnType<typeof run>;
}> {
  const gateway = await Receiver.start();
  onTestFinished(() => gateway.stop());
  const settings = {
    url: `${gateway.origin}/send`,
    contentType: 'json',
    body: { to: '<<to>>', text: '<<text>>' },
  };
  const folder = ownFolder();
  const flags = { smsGateway: folder.file('gateway.json', JSON.stringify(settings)) };
  const { ask } = await servedSite(SITE, { folder, flags });
  return { gateway, drill: (...args) => ask('drill', ...args) };
}

const textsOf = ({ requests }: Receiver): string[] =>
  requests.map(({ body }) => {
    const { to, text } = JSON.parse(body) as { to: string; text: string };
    return `${to} ${text}`;
  });

describe('a drill', () => {
  test('waits for what is under way, and says who got it, how soon, and who cannot be reached', async () => {
    const { gateway, drill } = await launch();
    const { code, stdout, stderr } = await drill('--bed', 'box-t', '--by', 'Technician');
    expect([code, stderr]).toEqual([0, '']);
    const lines = stdout.trimEnd().split('\n');
    expect(lines).toHaveLength(3);
    expect(lines[0]).toMatch(/^site by console: handed over after \d+\.\d s$/);
    expect(lines[1]).toMatch(/^keeper-t by sms: handed over after \d+\.\d s$/);
    expect(lines[2]).toBe('lead-t: no way that can be used here');
    expect(textsOf(gateway)).toEqual([expect.stringMatching(/^\+260970000001 .*Box T/)]);
    const json = JSON.parse((await drill('--bed', 'box-t', '--json')).stdout);
    expect(json).toMatchObject({ bed: 'box-t', by: 'the command line', without: ['lead-t'] });
  });

  test('does not wait for ever for a gateway that is out of order', async () => {
    const { gateway, drill } = await launch();
    gateway.answers = [withStatus(503)];
    const { code, stdout } = await drill('--bed', 'box-t', '--wait', '2');
    expect(code).toBe(0);
    expect(stdout).toMatch(/^keeper-t by sms: not handed over yet: sms http:.*got 503/m);
  });

  test('that cannot be is refused in a line, and nobody gets a message', async () => {
    const { gateway, drill } = await launch();
    const cases: [string[], number, RegExp][] = [
      [['--bed', 'box-z'], 1, /no bed has the id "box-z"/],
      [['--bed', 'Box T'], 1, /bed: /],
      [['--bed', 'box-t', '--by', ''], 1, /by: /],
      [['--bed', 'box-t', '--wait', 'long'], 2, /--wait/],
      [['--bed', 'box-t', '--wait', '-1'], 2, /--wait/],
      [['--bed', 'box-t', '--wait', '3601'], 2, /--wait/],
      [[], 2, /--bed/],
    ];
    for (const [args, code, sentence] of cases) {
      const said = await drill(...args);
      expect(said).toMatchObject({ code, stdout: '' });
      expect(said.stderr.trimEnd().split('\n')).toEqual([expect.stringMatching(sentence)]);
    }
    expect(gateway.requests).toEqual([]);
  });
});
