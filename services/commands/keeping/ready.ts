/** `sandlarder ready BED`: whether a bed may be filled, asked of a running service. */
import { SandlarderError } from '../../core/errors.js';
import { handAnswersSchema, OVERRIDE_REASON } from '../../core/model/readiness.js';
import { formatTime } from '../../core/model/time.js';
import type { ReadinessAnswer, ReadinessRecordAnswer } from '../../http/index.js';
import { onOutput, type Say } from '../say.js';
import { ServiceClient, type ServiceFlags } from '../service-client.js';
import { type Ask, onTerminal } from '../terminal.js';
import { type AnswerFlags, answersFromFlags } from './ready-flags.js';
import { listInLines, recordInLines } from './ready-lines.js';
import { questionsAnswered } from './ready-questions.js';

export interface ReadyFlags extends AnswerFlags, ServiceFlags {
  readonly by?: string;
  readonly override?: string;
  readonly show?: boolean;
  readonly json?: boolean;
}

export interface ReadySurroundings {
  readonly say?: Say;
  /** Asks a person; where it is absent nobody is there to be asked. */
  readonly ask?: Ask | undefined;
  /** Wall clock, ms. */
  readonly now?: () => number;
}

/** @throws SandlarderError WRONG_USAGE, and what the service refuses with */
export async function ready(
  bed: string,
  flags: ReadyFlags,
  { say = onOutput, ask = onTerminal(), now = Date.now }: ReadySurroundings = {},
): Promise<void> {
  const { by, override, show = false, json = false } = flags;
  const client = new ServiceClient(flags);
  const path = `/api/beds/${encodeURIComponent(bed)}/readiness`;
  const given = answersFromFlags(flags);
  requireName(by, given !== undefined || override !== undefined);
  requireReason(override);
  if (given === undefined && override === undefined) {
    const list = await client.get<ReadinessAnswer>(path);
    if (json) say(JSON.stringify(list));
    else for (const line of listInLines(list)) say(line);
    if (json || show || !ask) return;
    const told = await questionsAnswered(list, ask, by, say);
    if (told) showRecord(await keep(client, path, told.by, told.answers, now()), json, say);
    return;
  }
  const record = await keep(client, path, by as string, given ?? {}, now());
  if (override === undefined) {
    showRecord(record, json, say);
    return;
  }
  const body = { by, at: formatTime(Math.max(now(), Date.parse(record.at))), reason: override };
  showRecord(await client.post<ReadinessRecordAnswer>(`${path}/${record.id}/override`, body), json, say);
}

function keep(
  client: ServiceClient,
  path: string,
  by: string,
  answers: Readonly<Record<string, unknown>>,
  now: number,
): Promise<ReadinessRecordAnswer> {
  const parsed = handAnswersSchema.safeParse(answers);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    throw new SandlarderError(
      'WRONG_USAGE',
      `${['answers', ...(issue?.path ?? [])].join('.')}: ${issue?.message}`,
    );
  }
  return client.post<ReadinessRecordAnswer>(path, { at: formatTime(now), by, answers });
}

function showRecord(record: ReadinessRecordAnswer, json: boolean, say: Say): void {
  if (json) say(JSON.stringify(record));
  else for (const line of recordInLines(record)) say(line);
}

function requireName(by: string | undefined, isKept: boolean): void {
  if (isKept && (by === undefined || by.trim() === ''))
    throw new SandlarderError('WRONG_USAGE', '--by: expected who answers or overrides, got nobody');
}

function requireReason(reason: string | undefined): void {
  const length = reason?.trim().length;
  if (length !== undefined && !(length >= OVERRIDE_REASON.least && length <= OVERRIDE_REASON.most))
    throw new SandlarderError(
      'WRONG_USAGE',
      `--override: expected a reason of ${OVERRIDE_REASON.least} to ${OVERRIDE_REASON.most} characters, got ${length}`,
    );
}
