/** `sandlarder load SITE.json`. */
import { describeLoaded, loadSiteFile } from '../load.js';

export function load(file: string, flags: { readonly data: string; readonly json?: boolean }): void {
  const loaded = loadSiteFile(flags.data, file, Date.now());
  process.stdout.write(`${flags.json ? JSON.stringify(loaded) : describeLoaded(loaded)}\n`);
}
