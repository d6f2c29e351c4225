/** What this program is called and which version it is. */
import { createRequire } from 'node:module';

/** Found beside the sources and beside the build: the first package.json upwards that is this program's. */
function readVersion(): string {
  const require = createRequire(import.meta.url);
  for (const path of ['../package.json', '../../package.json']) {
    try {
      const { name, version } = require(path) as { name: string; version: string };
      if (name === 'sandlarder') return version;
    } catch {
      // Not there: the next one is looked at.
    }
  }
  return 'unknown';
}

export const VERSION = readVersion();
