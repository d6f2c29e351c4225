/** `sandlarder load SITE.json`. */
import { formatTime } from '../core/model/time.js';
import { describeLoaded, keptFillings, loadSiteFile, notesOn } from '../load.js';

/** @throws SandlarderError as reading and loading the file */
export function load(file: string, flags: { readonly data: string; readonly json?: boolean }): void {
  const loaded = loadSiteFile(flags.data, file, Date.now());
  for (const line of notesOn(flags.data, loaded.site)) process.stderr.write(`${line}\n`);
  for (const line of keptFillings(loaded)) process.stderr.write(`${line}\n`);
  const filledOtherwise = loaded.filledOtherwise.map(({ bed, at }) => ({ bed, at: formatTime(at) }));
  process.stdout.write(
    `${flags.json ? JSON.stringify({ ...loaded, filledOtherwise }) : describeLoaded(loaded)}\n`,
  );
}
