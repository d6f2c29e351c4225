/** `sandlarder trial report TRIAL`: what a trial has come to by now, in lines, as a page, as PDF, as tables. */
import { writeFile } from '../../files.js';
import type { TrialReportAnswer } from '../../http/index.js';
import { onOutput, type Say } from '../say.js';
import { ServiceClient } from '../service-client.js';
import { type ServiceFlags, trialPath } from './flags.js';
import { bedLines, resultLines } from './lines.js';

export interface ReportFlags extends ServiceFlags {
  readonly html?: string;
  readonly pdf?: string;
  readonly csv?: string;
  readonly rootsCsv?: string;
}

/** @throws SandlarderError WRONG_USAGE for a file that cannot be written, and what the service refuses with */
export async function report(trial: string, flags: ReportFlags, say: Say = onOutput): Promise<void> {
  const { json = false, html, pdf, csv, rootsCsv } = flags;
  const client = new ServiceClient(flags);
  const address = (format: string): string => trialPath(trial, `/report?format=${format}`);
  const found = await client.get<TrialReportAnswer>(address('json'));
  const [stands] = found.versions;
  if (json) say(JSON.stringify(found));
  else if (stands) for (const line of [...bedLines(stands), ...resultLines(found.result)]) say(line);
  const written: (readonly [string, string | undefined, () => Promise<Uint8Array | string>])[] = [
    ['--html', html, () => client.file(address('html'))],
    ['--pdf', pdf, () => client.file(address('pdf'))],
    ['--csv', csv, async () => found.valuesCsv],
    ['--roots-csv', rootsCsv, async () => found.rootsCsv],
  ];
  for (const [flag, file, content] of written) {
    if (file === undefined) continue;
    writeFile(file, await content(), { flag });
    if (!json) say(`Written: ${file}`);
  }
}
