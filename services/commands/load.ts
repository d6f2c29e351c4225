/** `sandlarder load SITE.json`. */
import { describeLoaded, loadSiteFile, unusableWays } from '../load.js';

export function load(file: string, flags: { readonly data: string; readonly json?: boolean }): void {
  const loaded = loadSiteFile(flags.data, file, Date.now());
  for (const line of unusableWays(flags.data, loaded.site)) process.stderr.write(`${line}\n`);
  process.stdout.write(`${flags.json ? JSON.stringify(loaded) : describeLoaded(loaded)}\n`);
}
