/** Where a thing that needs a person is done. */
import type { TodayItem } from '../api/types/today.js';
import { say } from '../words/say.js';

export interface LeadsTo {
  readonly address: string;
  readonly words: string;
  /** Which of several, for those who hear the links one by one. */
  readonly of?: string | undefined;
}

/** @returns undefined where it is done at no page: the service itself */
export function leadsTo({ kind, alarm, bed, probe }: TodayItem): LeadsTo | undefined {
  const of = bed?.name ?? probe ?? undefined;
  if (alarm !== null)
    return { address: `/alarms/${encodeURIComponent(alarm)}`, words: say('beds.openAlarm'), of };
  if (kind === 'look' && bed) return { address: `/jobs/inspect/${bed.id}`, words: say('beds.writeLook'), of };
  if (kind === 'readiness' && bed)
    return { address: `/jobs/ready/${bed.id}`, words: say('beds.openReadiness'), of };
  if (kind === 'fill' && bed) return { address: `/jobs/fill/${bed.id}`, words: say('beds.writeFilling'), of };
  if (kind === 'calibration') return { address: '/bench', words: say('beds.openBench'), of };
  if (kind !== 'unknown-probe') return undefined;
  const address = probe === null ? '/settings/probes' : `/settings/probes/${encodeURIComponent(probe)}`;
  return { address, words: say('beds.openSettings'), of };
}
