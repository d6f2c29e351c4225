/** How warm it was when the alarm's text was written, and how warm it is now: the text keeps its figure, the bed does not. */
import type { Alarm } from '../api/types/alarm.js';
import type { Bed, Probe } from '../api/types/bed.js';
import { celsiusMore } from '../words/numbers.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';

type Told = Pick<Alarm, 'kind' | 'evidence' | 'raisedAt' | 'clearedAt'>;

export function ThenAndNow({ alarm, probes = [] }: { alarm: Told; probes?: Bed['probes'] | undefined }) {
  const { told, now } = thenAndNow(alarm, probes);
  return (
    <>
      {told === undefined ? null : <p class="soft">{told}</p>}
      {now.length === 0 ? null : <p>{now.join(' ')}</p>}
    </>
  );
}

/** Nothing for an alarm that is of no warmth. @param probes of the bed as they stand now */
export function thenAndNow(
  alarm: Told,
  probes: readonly Probe[],
): { readonly told: string | undefined; readonly now: readonly string[] } {
  const { kind, evidence, clearedAt } = alarm;
  const { probe, excess_C } = evidence;
  if (kind !== 'heating' || typeof excess_C !== 'number' || typeof probe !== 'string')
    return { told: undefined, now: [] };
  const when = dayAndTime(knownAt(alarm));
  const told = say('alarm.warmThen', { excess: celsiusMore(excess_C), probe, when });
  return { told, now: clearedAt === null ? nowOf(probe, probes) : [] };
}

/** Event time of which an alarm's numbers and place are: they move together when the place becomes better known. */
export const knownAt = ({ evidence, raisedAt }: Pick<Told, 'evidence' | 'raisedAt'>): string | number =>
  evidence['excessAt'] ?? raisedAt;

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
