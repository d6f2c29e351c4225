/** The built service on a site of its own, as the commands meet it. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { temporaryDirectory } from './open.js';
import { run, start } from './processes.js';

/** A folder of a test, and its files. */
export function ownFolder() {
  const directory = temporaryDirectory();
  const path = (name: string): string => join(directory, name);
  return {
    directory,
    path,
    /** Writes a file and gives its path. */
    file: (name: string, text: string): string => {
      writeFileSync(path(name), text);
      return path(name);
    },
  };
}

interface Serving {
  readonly folder?: ReturnType<typeof ownFolder>;
  /** Further flags of `serve`. */
  readonly flags?: readonly string[];
  readonly environment?: NodeJS.ProcessEnv;
}

/** Loads the site and serves it, at addresses that are free. */
export async function servedSite(
  site: unknown,
  { folder = ownFolder(), flags = [], environment }: Serving = {},
) {
  const data = folder.path('data');
  const loaded = await run(['load', folder.file('site.json', JSON.stringify(site)), '--data', data]);
  expect(loaded).toMatchObject({ code: 0 });
  const listen = ['--listen', '127.0.0.1:0', '--mqtt-listen', '127.0.0.1:0'];
  const service = start(['serve', '--data', data, ...listen, ...flags], environment);
  const [, http = ''] = await service.said(/questions at (\S+)\/api/);
  return {
    ...folder,
    data,
    http,
    /** A command that asks this service. */
    ask: (...args: string[]) => run([...args, '--service', http], environment),
  };
}
