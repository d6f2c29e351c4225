/** `sandlarder trial report TRIAL`: what a trial has come to by now. */
import type { TrialAnswer, TrialResultAnswer } from '../../http/index.js';
import { onOutput, type Say } from '../say.js';
import { ServiceClient } from '../service-client.js';
import { type ServiceFlags, trialPath } from './flags.js';
import { bedLines, resultLines } from './lines.js';

export async function report(
  trial: string,
  { service, json }: ServiceFlags,
  say: Say = onOutput,
): Promise<void> {
  const client = new ServiceClient(service);
  const result = await client.get<TrialResultAnswer>(trialPath(trial, '/result'));
  if (json) {
    say(JSON.stringify(result));
    return;
  }
  const described = await client.get<TrialAnswer>(trialPath(trial));
  for (const line of [...bedLines(described), ...resultLines(result)]) say(line);
}
