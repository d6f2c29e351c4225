/** A trial as it stands, with what is changed: what is not changed stays. */
import { ask } from '../api/client.js';
import type { Trial, TrialBed } from '../api/types/trial.js';
import type { Stamp } from './stamp.js';

type Sent = Readonly<Record<string, unknown>>;

const bedSent = ({ bed, block, treatment }: TrialBed): Sent => ({
  ...{ bed, ...(block !== null && { block }), ...(treatment !== null && { treatment }) },
});

/** The body of a version that supersedes one, without its stamp, its person and its reason. */
export const standing = (trial: Trial): Sent => ({
  ...{ trial: trial.trial, name: trial.name, from: trial.from, design: trial.design },
  ...{ treatments: trial.treatments, described: trial.described, outcome: trial.outcome },
  ...(trial.question !== null && { question: trial.question }),
  ...(trial.to !== null && { to: trial.to }),
  ...(trial.note !== null && { note: trial.note }),
  ...{ beds: trial.beds.map(bedSent), supersedes: trial.version },
});

/** @throws Refusal, NoNetwork */
export const sendTrial = (body: Sent, stampOf: (content: unknown) => Stamp): Promise<Trial> =>
  ask<Trial>('/api/trials', { method: 'POST', body: { ...body, ...stampOf(body) } });
