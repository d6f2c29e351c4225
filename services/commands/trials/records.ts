/** `sandlarder trial new | correct | assign | list | beds`: trials that are kept by a service. */
import { SandlarderError } from '../../core/errors.js';
import { describeIssue } from '../../core/model/problem.js';
import { trialBodySchema } from '../../core/model/trial.js';
import type { TrialAnswer } from '../../http/index.js';
import { readWhole } from '../numbers.js';
import { onOutput, type Say } from '../say.js';
import { ServiceClient } from '../service-client.js';
import { bedOf, describedOf, headOf, type ServiceFlags, trialPath, type WrittenFlags } from './flags.js';
import { bedLines, trialLine } from './lines.js';

export interface NewFlags extends WrittenFlags {
  readonly name: string;
  readonly question?: string;
  readonly from: string;
  readonly to?: string;
  readonly design: string;
  readonly treatments: readonly string[];
  readonly described?: readonly string[];
  readonly beds: readonly string[];
  readonly outcome: string;
  readonly day: string;
  readonly note?: string;
}

/** @throws SandlarderError WRONG_USAGE, and what the service refuses with */
export async function addTrial(trial: string, flags: NewFlags, say: Say = onOutput): Promise<void> {
  await send(bodyOf(trial, flags), flags, say).catch((error: unknown) => {
    if (
      !(error instanceof SandlarderError && /^trial: expected an id that is not in use/.test(error.message))
    )
      throw error;
    throw new SandlarderError(
      error.code,
      `expected an id that is not in use, got ${JSON.stringify(trial)}, which is there: "sandlarder trial correct ${trial}" corrects that trial`,
      { cause: error },
    );
  });
}

function bodyOf(trial: string, flags: NewFlags): Record<string, unknown> {
  const { name, question, from, to, design, treatments, described, beds, outcome, day, note } = flags;
  return Object.fromEntries(
    Object.entries({
      ...{ ...headOf(flags), trial, name, question, from, to, design, treatments },
      ...{ described: described && describedOf(described), beds: beds.map(bedOf) },
      outcome: { kind: outcome, day: readWhole('--day', day, 1, 400) },
      note,
    }).filter(([, value]) => value !== undefined),
  );
}

/** What would be refused for its form is refused before it is sent. */
async function send(body: Record<string, unknown>, flags: ServiceFlags, say: Say): Promise<void> {
  const checked = trialBodySchema.safeParse(body, { reportInput: true });
  const [issue] = checked.error?.issues ?? [];
  if (issue) throw new SandlarderError('WRONG_USAGE', describeIssue(issue));
  const kept = await new ServiceClient(flags).post<TrialAnswer>('/api/trials', body);
  tell(kept, flags, say);
}

export interface CorrectFlags extends Partial<Omit<NewFlags, 'by' | 'service'>>, ServiceFlags {
  readonly by: string;
  readonly reason: string;
}

/** What is not given stays as it is. */
export async function correctTrial(trial: string, flags: CorrectFlags, say: Say = onOutput): Promise<void> {
  const stands = await new ServiceClient(flags).get<TrialAnswer>(trialPath(trial));
  const { name, question, from, to, design, treatments, described, outcome, note } = stands;
  requireStillThere(stands, flags);
  const known = {
    ...{ name, question, from, to, design, treatments, note },
    described: {
      ...describedStill(described, flags.treatments),
      ...describedOf(flags.described ?? []),
    },
    beds: stands.beds.map(withoutNulls),
    outcome: { ...outcome },
  };
  const given = {
    ...{ name: flags.name, question: flags.question, from: flags.from, to: flags.to, note: flags.note },
    ...{ design: flags.design, treatments: flags.treatments, beds: flags.beds?.map(bedOf) },
    ...((flags.outcome !== undefined || flags.day !== undefined) && {
      outcome: {
        kind: flags.outcome ?? outcome.kind,
        day: flags.day === undefined ? outcome.day : readWhole('--day', flags.day, 1, 400),
      },
    }),
  };
  const body = { ...withoutNulls(known), ...withoutNulls(given) };
  const head = { ...headOf(flags), trial, supersedes: stands.version, reason: flags.reason };
  await send({ ...head, ...body }, flags, say);
}

/** Beds keep the treatment that they have: one that is to go must first be nobody's. */
function requireStillThere({ trial, beds }: TrialAnswer, { treatments, beds: given }: CorrectFlags): void {
  if (treatments === undefined || given !== undefined) return;
  const lost = beds.find(({ treatment }) => treatment !== null && !treatments.includes(treatment));
  if (!lost) return;
  throw new SandlarderError(
    'WRONG_USAGE',
    `--treatments: expected ${lost.treatment} among them, which bed ${lost.bed} has, got ${treatments.join(' ')}: which bed has which treatment is drawn once by "sandlarder trial assign ${trial}", or given by hand with --beds BED:TREATMENT`,
  );
}

/** Of treatments that are no longer there nothing is said. */
const describedStill = (
  described: TrialAnswer['described'],
  treatments: readonly string[] | undefined,
): TrialAnswer['described'] =>
  Object.fromEntries(
    Object.entries(described).filter(([treatment]) => treatments?.includes(treatment) !== false),
  );

const withoutNulls = (values: object): Record<string, unknown> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== null && value !== undefined));

export interface AssignFlags extends WrittenFlags {
  readonly seed?: string;
}

/** Draws treatments for beds. */
export async function assignTrial(trial: string, flags: AssignFlags, say: Say = onOutput): Promise<void> {
  const seed = flags.seed === undefined ? {} : { seed: readWhole('--seed', flags.seed, 0, 999_999_999) };
  const body = { ...headOf(flags), ...seed };
  tell(await new ServiceClient(flags).post<TrialAnswer>(trialPath(trial, '/assignment'), body), flags, say);
}

export async function listTrials(flags: ServiceFlags, say: Say = onOutput): Promise<void> {
  const trials = await new ServiceClient(flags).get<TrialAnswer[]>('/api/trials');
  if (flags.json) say(JSON.stringify(trials));
  else for (const line of trials.length === 0 ? ['No trials.'] : trials.map(trialLine)) say(line);
}

export async function showBeds(trial: string, flags: ServiceFlags, say: Say = onOutput): Promise<void> {
  tell(await new ServiceClient(flags).get<TrialAnswer>(trialPath(trial)), flags, say);
}

function tell(trial: TrialAnswer, { json }: ServiceFlags, say: Say): void {
  if (json) say(JSON.stringify(trial));
  else for (const line of bedLines(trial)) say(line);
}
