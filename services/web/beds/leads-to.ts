/** Where a thing that needs a person is done. */
import type { TodayItem } from '../api/types/today.js';
import { say } from '../words/say.js';
import type { TodayJob } from './jobs-of-today.js';

export interface LeadsTo {
  readonly address: string;
  readonly words: string;
  /** Which of several, for those who hear the links one by one. */
  readonly of?: string | undefined;
}

export const alarmAddress = (alarm: string): string => `/alarms/${encodeURIComponent(alarm)}`;

/** Several reasons to look into a bed are answered by one look; what is to be done today begins with its gravest. */
export function jobLeadsTo({ when, items }: TodayJob): LeadsTo | undefined {
  const [first] = items;
  const { bed } = first;
  const isLook = when === 'next-visit' && items.some(({ kind }) => kind === 'alarm' || kind === 'look');
  if (items.length > 1 && isLook && bed) return lookInto(bed);
  return leadsTo(first);
}

const lookInto = ({ id, name }: NonNullable<TodayItem['bed']>): LeadsTo => ({
  ...{ address: `/jobs/inspect/${id}`, words: say('beds.writeLook'), of: name },
});

/** @returns undefined where it is done at no page: the service itself */
function leadsTo({ kind, alarm, bed, probe }: TodayItem): LeadsTo | undefined {
  const of = bed?.name ?? probe ?? undefined;
  if (alarm !== null) return { address: alarmAddress(alarm), words: say('beds.openAlarm'), of };
  if (kind === 'look' && bed) return lookInto(bed);
  if (kind === 'readiness' && bed)
    return { address: `/jobs/ready/${bed.id}`, words: say('beds.openReadiness'), of };
  if (kind === 'fill' && bed) return { address: `/jobs/fill/${bed.id}`, words: say('beds.writeFilling'), of };
  if (kind === 'calibration') return { address: '/bench', words: say('beds.openBench'), of };
  if (kind !== 'unknown-probe') return undefined;
  const address = probe === null ? '/settings/probes' : `/settings/probes/${encodeURIComponent(probe)}`;
  return { address, words: say('beds.openSettings'), of };
}
