/** `sandlarder trial report TRIAL`: what a trial has come to by now, in lines, as a page, as PDF, as tables. */
import { writeFileSync } from 'node:fs';
import { SandlarderError } from '../../core/errors.js';
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
  const written: (readonly [string | undefined, () => Promise<Uint8Array | string>])[] = [
    [html, () => client.file(address('html'))],
    [pdf, () => client.file(address('pdf'))],
    [csv, async () => found.valuesCsv],
    [rootsCsv, async () => found.rootsCsv],
  ];
  for (const [file, content] of written) {
    if (file === undefined) continue;
    write(file, await content());
    if (!json) say(`Written: ${file}`);
  }
}

function write(file: string, content: Uint8Array | string): void {
  try {
    writeFileSync(file, content);
  } catch (error) {
    throw new SandlarderError('WRONG_USAGE', `${file}: cannot be written: ${(error as Error).message}`);
  }
}
