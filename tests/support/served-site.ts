/** The service on a site of its own, as the commands meet it. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { loadSite } from '../../services/load.js';
import { serve } from '../../services/serve.js';
import { readServeSettings, type ServeFlags } from '../../services/settings.js';
import { temporaryDirectory } from './open.js';
import { run } from './processes.js';

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
  readonly flags?: Partial<ServeFlags>;
  readonly environment?: NodeJS.ProcessEnv;
}

/**
 * Loads the site and serves it until the test ends, at addresses that are free, in this process: it is the commands that
 * are processes of their own here. `command-line.test.ts` and the tests of services start the whole program.
 */
export async function servedSite(
  site: unknown,
  { folder = ownFolder(), flags = {}, environment = {} }: Serving = {},
) {
  const data = folder.path('data');
  loadSite(data, 'site.json', site, Date.now());
  const listen = { listen: '127.0.0.1:0', mqttListen: '127.0.0.1:0' };
  const settings = readServeSettings({ data, ...listen, ...flags }, { ...process.env, ...environment });
  const service = await serve({ settings, tellConsole: () => undefined, log: () => undefined });
  onTestFinished(() => service.close());
  const http = service.httpUrl;
  return {
    ...folder,
    data,
    http,
    /** A command that asks this service. */
    ask: (...args: string[]) => run([...args, '--service', http], environment),
  };
}
