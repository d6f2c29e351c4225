/** What an address asks for is not there: of what kind it would have been, and the list of those that are. */
import type { Refusal } from '../api/client.js';
import { say } from '../words/say.js';
import { ButtonLink } from './button.js';
import { Notice } from './notice.js';

const LISTS = {
  bed: ['/beds', 'parts.noBed', 'parts.toBeds'],
  alarm: ['/alarms', 'parts.noAlarm', 'parts.toAlarms'],
  trial: ['/trials', 'parts.noTrial', 'parts.toTrials'],
  probe: ['/settings/probes', 'parts.noProbe', 'parts.toProbes'],
  calibration: ['/bench', 'parts.noCalibration', 'parts.toBench'],
  bench: ['/bench', 'parts.noBench', 'parts.toBench'],
} as const;

/** What a page is about. */
export interface Thing {
  readonly kind: keyof typeof LISTS;
  readonly id: string;
}

/** Whether the service knows nothing of that id, rather than refusing what was asked of it. */
export const isNotThere = (refusal: Pick<Refusal, 'status' | 'code'> | undefined): boolean =>
  refusal?.status === 404 && refusal.code === 'NOT_FOUND';

export function NotThere({ kind, id }: Thing) {
  const [list, none, to] = LISTS[kind];
  return (
    <>
      <Notice kind="refusal">
        <p>{say(none, { id })}</p>
      </Notice>
      <div class="buttons">
        <ButtonLink href={list}>{say(to)}</ButtonLink>
      </div>
    </>
  );
}
