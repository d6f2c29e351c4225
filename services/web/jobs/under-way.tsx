/** What was begun on this device at a job and is not sent or ended yet. */
import { keptNow } from '../parts/kept.js';
import { say } from '../words/say.js';
import type { BedInSeason } from './bed-jobs.js';
import { draftName } from './drafts.js';
import type { JobName } from './jobs.js';
import { keptPlans, nameOfPlan } from './plan/kept-plans.js';

interface Begun {
  readonly href: string;
  readonly text: string;
}

export function UnderWay({ job, beds }: { job: JobName; beds: readonly BedInSeason[] }) {
  const begun = begunAt(job, beds);
  return begun.length === 0 ? null : (
    <ul class="under-way">
      {begun.map(({ href, text }) => (
        <li key={href + text}>
          <a href={href}>{text}</a>
        </li>
      ))}
    </ul>
  );
}

function begunAt(job: JobName, beds: readonly BedInSeason[]): readonly Begun[] {
  if (job === 'plan')
    return keptPlans().map((kept) => ({
      href: `/jobs/plan?kept=${kept.id}`,
      text: say('work.keptPlan', { name: nameOfPlan(kept) }),
    }));
  if (job === 'sand')
    return isDraft(draftName('sand')) ? [{ href: '/jobs/sand', text: say('work.draftSand') }] : [];
  if (job !== 'ready') return [];
  return beds
    .filter(({ bed }) => isDraft(draftName('ready', bed.id)))
    .map(({ bed }) => ({
      href: `/jobs/ready/${bed.id}`,
      text: say('work.draftReady', { bed: bed.name }),
    }));
}

const isDraft = (name: string): boolean => keptNow<unknown>(name, undefined) !== undefined;
