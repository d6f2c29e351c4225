/** `sandlarder look` with somebody at the terminal, against a running service. */
import { expect, test } from 'vitest';
import { look } from '../../services/commands/ledger/look.js';
import { keepingSite } from '../support/keeping-site.js';
import { servedSite } from '../support/served-site.js';

const ANSWERS: readonly (readonly [about: string, answer: string])[] = [
  ['looked at', '30'],
  ['rotten or', '31'],
  ['rotten or', '2'],
];

/** Somebody who gives these answers by what a question is about, each once, and Enter to all else. */
async function asked(service: string, bed: string, answers = ANSWERS) {
  const left = [...answers];
  const lines: string[] = [];
  const questions: string[] = [];
  const failed = await look(
    bed,
    { service, by: 'Wanja' },
    { say: (line) => lines.push(line), tell: (line) => lines.push(line) },
    async (question) => {
      questions.push(question);
      const at = left.findIndex(([about]) => question.includes(about));
      return at < 0 ? '' : (left.splice(at, 1)[0]?.[1] ?? '');
    },
  ).catch((error: Error) => error);
  return { lines, questions, failed };
}

test('a bed or a service that is not there is told before the first question', async () => {
  const away = await asked('http://127.0.0.1:1', 'pit-k');
  expect(away.questions).toEqual([]);
  expect(away.failed).toMatchObject({ code: 'RECEIVER_UNAVAILABLE' });
  const { http } = await servedSite(keepingSite());
  const unknown = await asked(http, 'pit-z');
  expect(unknown.questions).toEqual([]);
  expect(unknown.failed).toMatchObject({ code: 'NOT_FOUND' });
});

test('what was told is written down; what is refused is given back as a command', async () => {
  const { http } = await servedSite(keepingSite());
  const written = await asked(http, 'pit-k');
  expect(written.failed).toBeUndefined();
  expect(written.questions.filter((question) => question.includes('rotten or'))).toHaveLength(2);
  expect(written.lines.join('\n')).toContain('the whole root: do not eat it');

  const refused = await asked(http, 'pit-k', [...ANSWERS, ['come out', 'eaten 900000']]);
  expect(refused.failed).toMatchObject({ message: expect.stringMatching(/^looked: expected at least/) });
  const [command = ''] = refused.lines.filter((line) => line.startsWith('To send it again: '));
  expect(command).toContain('sandlarder look pit-k --by Wanja');
  expect(command).toContain('--rotten 2');
  expect(command).toContain('--out eaten:900000');
});
