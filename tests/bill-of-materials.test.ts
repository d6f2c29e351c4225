/** What the program is made of: `npm run sbom` names every package that runs with it, and each may be passed on. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

interface Component {
  readonly name: string;
  readonly version: string;
  readonly licenses?: readonly {
    readonly license?: { readonly id?: string };
    readonly expression?: string;
  }[];
}

/** SPDX names of licences under which a package may be passed on with a program under Apache-2.0. */
const PASSED_ON = [
  'MIT',
  'ISC',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  '0BSD',
  'MIT-0',
  'BlueOak-1.0.0',
  'Unlicense',
  'CC0-1.0',
  'Python-2.0',
];

/** Packages whose description names none: what the licence file in the package says. */
const BY_FILE: Readonly<Record<string, string>> = { 'png-js': 'MIT' };

const root = new URL('..', import.meta.url).pathname;
const { dependencies, scripts } = JSON.parse(readFileSync(`${root}package.json`, 'utf8')) as {
  dependencies: Record<string, string>;
  scripts: Record<string, string>;
};

test('names every package that runs with it, by version, under a licence that lets it be passed on', () => {
  const [command = '', ...args] = (scripts['sbom'] ?? '').split(' ');
  const bill = JSON.parse(execFileSync(command, args, { cwd: root, encoding: 'utf8', maxBuffer: 64e6 })) as {
    components: Component[];
  };
  const versions = new Map(bill.components.map(({ name, version }) => [name, version]));
  for (const [name, version] of Object.entries(dependencies))
    expect([name, versions.get(name)]).toEqual([name, version]);
  const unsure = bill.components.filter((one) => !licencesOf(one).some((id) => PASSED_ON.includes(id)));
  expect(unsure.map((one) => `${one.name} ${licencesOf(one).join()}`)).toEqual([]);
});

const licencesOf = ({ name, licenses = [] }: Component): string[] =>
  [
    ...licenses.map(({ license, expression }) => license?.id ?? expression ?? ''),
    BY_FILE[name] ?? '',
  ].flatMap((text) => text.replace(/[()]/g, '').split(' OR '));
