/** `sandlarder sand`: whether a sand is fit to keep roots in. Works without a service, unless it is to be kept. */
import { SandlarderError } from '../../core/errors.js';
import { type SandDocument, sandDocument, sandReport } from '../../core/keeping/index.js';
import { type SandMeasured, sandMeasuredSchema } from '../../core/model/sand.js';
import type { SandAnswer } from '../../http/index.js';
import { onOutput, type Say } from '../say.js';
import { ServiceClient, type ServiceFlags } from '../service-client.js';
import { type SandFlags, sandFromFlags } from './sand-flags.js';
import { sandInLines } from './sand-lines.js';

export interface SandCommandFlags extends SandFlags, ServiceFlags {
  readonly bed?: string;
  readonly by?: string;
  readonly json?: boolean;
}

/** @throws SandlarderError WRONG_USAGE */
export async function sand(flags: SandCommandFlags, say: Say = onOutput): Promise<void> {
  const measured = checked(sandFromFlags(flags));
  const { bed, by, json = false } = flags;
  if (bed === undefined) {
    if (by !== undefined)
      throw new SandlarderError('WRONG_USAGE', '--by: expected --bed beside it, got none: nothing is kept');
    tell(
      asUsage(() => sandDocument(sandReport(measured))),
      json,
      say,
    );
    return;
  }
  if (by === undefined)
    throw new SandlarderError('WRONG_USAGE', '--bed: expected --by NAME beside it, got none');
  const kept = await new ServiceClient(flags).post<SandAnswer>(`/api/sand?bed=${encodeURIComponent(bed)}`, {
    ...measured,
    by,
  });
  if (json) say(JSON.stringify(kept));
  else {
    for (const line of sandInLines(kept.report)) say(line);
    say(`Kept as a record of ${bed}: ${kept.id}`);
  }
}

function tell(report: SandDocument, json: boolean, say: Say): void {
  if (json) say(JSON.stringify(report));
  else for (const line of sandInLines(report)) say(line);
}

function checked(measured: unknown): SandMeasured {
  const parsed = sandMeasuredSchema.safeParse(measured);
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  const where = issue?.path.join('.') ?? '';
  throw new SandlarderError('WRONG_USAGE', `sand: ${where === '' ? '' : `${where}: `}${issue?.message}`);
}

/** What no sand can be was given on the command line. */
function asUsage(make: () => SandDocument): SandDocument {
  try {
    return make();
  } catch (error) {
    if (error instanceof SandlarderError) throw new SandlarderError('WRONG_USAGE', `sand: ${error.message}`);
    throw error;
  }
}
