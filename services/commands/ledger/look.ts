/** `sandlarder look`: write down what was found in a bed, or see which looks are due. */
import { SandlarderError } from '../../core/errors.js';
import type { LookAnswer } from '../../http/index.js';
import type { Say } from '../say.js';
import { ServiceClient } from '../service-client.js';
import { type Ask, onTerminal } from '../terminal.js';
import { bedOrFile, required, SURROUNDINGS, type Surroundings } from './flags.js';
import { inspectedLines, lookLines } from './lines.js';
import { asCommand, type LookFlags, lookRecord, saysNothing } from './look-flags.js';
import { lookAsked } from './look-questions.js';
import { requirePhotos } from './photos.js';
import { sendFile, sendOrKeep } from './send.js';

/** @throws SandlarderError WRONG_USAGE, and what the service refuses with */
export async function look(
  bed: string | undefined,
  flags: LookFlags,
  surroundings: Surroundings = SURROUNDINGS,
  ask: Ask | undefined = onTerminal(),
): Promise<void> {
  const { say } = surroundings;
  if (flags.due) return due(bed, flags, say);
  bedOrFile(bed, flags);
  if (flags.fromFile !== undefined) return sendFile(flags, surroundings);
  const isAsked = saysNothing(flags) && ask !== undefined && !flags.json;
  const told = isAsked ? await askedFor(bed as string, flags, ask, say) : needsFinding(flags);
  requirePhotos(told.photo);
  const answer = await sendOrKeep(lookRecord(bed as string, told), flags, surroundings).catch((error) => {
    if (isAsked) say(`To send it again: ${asCommand(bed as string, told)}`);
    throw error;
  });
  const [inspected] = answer?.inspections ?? [];
  if (!inspected) return;
  if (flags.json) say(JSON.stringify(inspected));
  else for (const line of inspectedLines(inspected)) say(line);
}

/** Whoever answers twelve questions is not to hear only then that there is no such bed, or no service. */
async function askedFor(bed: string, flags: LookFlags, ask: Ask, say: Say): Promise<LookFlags> {
  if (flags.keep === undefined) await new ServiceClient(flags).get(`/api/beds/${encodeURIComponent(bed)}`);
  return required('who looks', await lookAsked(flags, ask, say));
}

/** A look of which nothing is told is a slip, not a bed in which nothing was found. */
function needsFinding(flags: LookFlags): LookFlags {
  if (saysNothing(flags))
    throw new SandlarderError(
      'WRONG_USAGE',
      'look: expected what was found, such as --found nothing or --looked 40 --rotten 2, or a terminal to ask at; got neither',
    );
  return flags;
}

async function due(bed: string | undefined, flags: LookFlags, say: Say): Promise<void> {
  const all = await new ServiceClient(flags).get<LookAnswer[]>('/api/looks');
  const looks = bed === undefined ? all : all.filter((one) => one.bed === bed);
  if (bed !== undefined && looks.length === 0)
    throw new SandlarderError('NOT_FOUND', `no bed has the id "${bed}"`);
  if (flags.json) return say(JSON.stringify(looks));
  for (const line of lookLines(looks, false)) say(line);
  if (looks.length === 0) say('No beds.');
}
