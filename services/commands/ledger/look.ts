/** `sandlarder look`: write down what was found in a bed, or see which looks are due. */
import { SandlarderError } from '../../core/errors.js';
import type { LookAnswer } from '../../http/index.js';
import { ServiceClient } from '../service-client.js';
import { askOnTerminal } from '../terminal.js';
import { bedOrFile, required, SURROUNDINGS } from './flags.js';
import { inspectedLines, lookLines } from './lines.js';
import { type LookFlags, lookRecord, saysNothing } from './look-flags.js';
import { lookAsked } from './look-questions.js';
import { sendFile, sendOrKeep } from './send.js';

export async function look(bed: string | undefined, flags: LookFlags): Promise<void> {
  if (flags.due) return due(bed, flags);
  bedOrFile(bed, flags);
  if (flags.fromFile !== undefined) return sendFile(flags, SURROUNDINGS);
  const { say } = SURROUNDINGS;
  const told = await toldOf(flags);
  const record = lookRecord(bed as string, told);
  const answer = await sendOrKeep(record, flags, SURROUNDINGS);
  const [inspected] = answer?.inspections ?? [];
  if (!inspected) return;
  if (flags.json) say(JSON.stringify(inspected));
  else for (const line of inspectedLines(inspected)) say(line);
}

/** At a terminal what was found is asked for; where there is none, it must be given. */
async function toldOf(flags: LookFlags): Promise<LookFlags> {
  if (!saysNothing(flags) || !process.stdin.isTTY || flags.json) return needsFinding(flags);
  return required('who looks', await lookAsked(flags, askOnTerminal, SURROUNDINGS.say));
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

async function due(bed: string | undefined, { service, json }: LookFlags): Promise<void> {
  const { say } = SURROUNDINGS;
  const all = await new ServiceClient(service).get<LookAnswer[]>('/api/looks');
  const looks = bed === undefined ? all : all.filter((one) => one.bed === bed);
  if (bed !== undefined && looks.length === 0)
    throw new SandlarderError('NOT_FOUND', `no bed has the id "${bed}"`);
  if (json) return say(JSON.stringify(looks));
  for (const line of lookLines(looks, false)) say(line);
  if (looks.length === 0) say('No beds.');
}
