/** How warm it was when the alarm's text was written, and how warm it is now: the text keeps its figure, the bed does not. */
import type { Alarm } from '../api/types/alarm.js';
import type { Bed, Probe } from '../api/types/bed.js';
import { celsiusMore } from '../words/numbers.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';

type Told = Pick<Alarm, 'kind' | 'evidence' | 'raisedAt' | 'clearedAt'>;

export function ThenAndNow({ alarm, probes = [] }: { alarm: Told; probes?: Bed['probes'] | undefined }) {
  const lines = thenAndNow(alarm, probes);
  return lines.length === 0 ? null : <p class="soft">{lines.join(' ')}</p>;
}

/** Nothing for an alarm that is of no warmth. @param probes of the bed as they stand now */
export function thenAndNow(alarm: Told, probes: readonly Probe[]): string[] {
  const { kind, evidence, raisedAt, clearedAt } = alarm;
  const { probe, excess_C, excessAt = raisedAt } = evidence;
  if (kind !== 'heating' || typeof excess_C !== 'number' || typeof probe !== 'string') return [];
  const then = say('alarm.warmThen', { excess: celsiusMore(excess_C), probe, when: dayAndTime(excessAt) });
  return [then, ...(clearedAt === null ? nowOf(probe, probes) : [])];
}

function nowOf(probe: string, probes: readonly Probe[]): string[] {
  const own = probes.find(({ id }) => id === probe);
  const warmest = probes.reduce<Probe | undefined>(
    (best, one) => ((one.excess_C ?? -99) > (best?.excess_C ?? -99) ? one : best),
    undefined,
  );
  return [
    ...(own ? said('alarm.warmNow', own) : []),
    ...(warmest && warmest.id !== probe ? said('alarm.warmestNow', warmest) : []),
  ];
}

const said = (key: 'alarm.warmNow' | 'alarm.warmestNow', { id, excess_C, latest }: Probe): string[] =>
  excess_C === null || latest === null
    ? []
    : [say(key, { excess: celsiusMore(excess_C), probe: id, when: dayAndTime(latest.at) })];
