import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import {
  allExample,
  CATALOGUES,
  findingSaid,
  foundExample,
  LANGUAGES,
  laterExample,
  okExample,
} from '../services/core/alarms/languages/index.js';
import { ERROR_CODES } from '../services/core/errors.js';
import { FINDINGS } from '../services/core/model/inspection.js';
import { checkSiteFile } from '../services/core/model/site-file.js';
import { THRESHOLDS } from '../services/core/model/threshold.js';

const read = (name: string): string => readFileSync(new URL(`../${name}`, import.meta.url), 'utf8');
const readme = read('README.md');
const developers = read('DEVELOPERS.md');

test('the site description of the README is one', () => {
  const [, example = ''] = /```json\n([\s\S]*?)```/.exec(readme) ?? [];
  expect(checkSiteFile('README.md', JSON.parse(example)).beds).toHaveLength(1);
});

test('the README names every threshold with its default', () => {
  for (const [name, { default: value }] of Object.entries(THRESHOLDS))
    expect(readme).toMatch(new RegExp(`\`${name}\`( ${String(value).replace('.', '\\.')} | with|\\n)`));
});

test.each(LANGUAGES)(
  'the README tells how to answer in $language, and what is a draft',
  ({ language, ...rest }) => {
    const catalogue = CATALOGUES[language];
    const [row = ''] = new RegExp(`^\\| ${language} \\|.*$`, 'm').exec(readme) ?? [];
    const [rot, ...others] = FINDINGS;
    for (const words of [
      ...[okExample(catalogue, [3]), allExample(catalogue), laterExample(catalogue, [3], 6)],
      ...[foundExample(catalogue, rot, [3]), ...others.map((finding) => findingSaid(catalogue, finding))],
    ])
      expect(row).toContain(`\`${words}\``);
    expect(readme).toContain('English are drafts that no native speaker has read.');
    expect(rest.nativeReviewed).toBe(language === 'en');
  },
);

test('every threshold says where its default comes from', () => {
  for (const { source } of Object.values(THRESHOLDS))
    expect(source).toMatch(/^(judgement|common practice, no source|from memory|published)/);
});

test('DEVELOPERS.md lists the error codes, all and no other', () => {
  const [, table = ''] = /## Error codes\n([\s\S]*?)(?=\n## |$)/.exec(developers) ?? [];
  const listed = [...table.matchAll(/^\| `([A-Z_]+)`/gm)].map((match) => match[1]);
  expect(listed).toEqual([...ERROR_CODES]);
});

test('DEVELOPERS.md gives a reason for every dependency', () => {
  const { dependencies, optionalDependencies, devDependencies } = JSON.parse(read('package.json')) as Record<
    string,
    Record<string, string>
  >;
  for (const name of Object.keys({ ...dependencies, ...optionalDependencies, ...devDependencies }))
    expect(developers).toContain(`| ${name} |`);
});

test('the example configuration for Mosquitto has what the README says it has', () => {
  const settings = read('services/intake/mosquitto.example.conf');
  for (const line of [
    'persistence true',
    'autosave_on_changes true',
    'autosave_interval 1',
    'max_queued_messages 0',
    'max_inflight_messages 1000',
  ]) {
    expect(settings).toContain(`\n${line}\n`);
    expect(readme).toContain(line);
  }
});
