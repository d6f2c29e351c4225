/** What a planned telling says where somebody's webhook takes CAP 1.2. */
import { type CapReference, capIdentifier, capOf } from '../core/alarms/cap.js';
import { alarmDocument } from '../core/alarms/document.js';
import type { PersonTelling, ReachWay, ToldRecord } from '../core/alarms/duty/index.js';
import { eventLine, longText } from '../core/alarms/text.js';
import { CAP_SCOPE, capSenderOf } from './cap-station.js';
import type { ToldAlarm } from './duty-messages.js';

export interface CapTelling {
  readonly site: { readonly id: string; readonly name: string; readonly timezone: string };
  readonly plan: PersonTelling;
  readonly told: ToldAlarm;
  /** What was told of the alarm by now, to whomever, under any of its ids. */
  readonly records: readonly ToldRecord[];
  /** Wall clock, ms. */
  readonly now: number;
}

type Named = Pick<ToldRecord, 'alarm' | 'event' | 'at' | 'person'>;

/** Unlike any other: nobody is told of one event of one alarm twice at one instant. At most 194 characters. */
const identifierOf = ({ alarm, event, at, person }: Named): string =>
  `${alarm}.${event}.${at.toString(36)}.${person}`;

const isSameWay = (one: ReachWay, other: ReachWay): boolean => one.via === other.via && one.to === other.to;

/** What this receiver has of the alarm, or has on its way, oldest first. */
function earlierOf({ plan, records }: CapTelling): CapReference[] {
  return records
    .filter(({ person, way }) => person === plan.person && isSameWay(way, plan))
    .filter(({ message, delivered }) => message !== plan.key && delivered !== false)
    .sort((one, other) => one.at - other.at)
    .map((record) => ({ identifier: identifierOf(record), sentAt: record.at }));
}

/**
 * The telling of one alarm as CAP 1.2, in English: what goes on to public systems holds no unread translation. Told
 * again while it lasts, or open again after its end, it is an `Update` of all that this receiver has of it. One that
 * was told of the beginning by another way has nothing of it: the message then refers to the alarm as
 * `GET /api/alarms/{id}/cap` gave it while it lasted.
 *
 * @returns XML 1.0 text, UTF-8
 */
export function capFor(telling: CapTelling): string {
  const { site, plan, told, now } = telling;
  const { alarm, bed, knownAt } = told;
  const earlier = earlierOf(telling);
  const first = [{ identifier: capIdentifier(alarm.id, 'raised'), sentAt: Math.min(knownAt, now) }];
  return capOf(
    {
      event: plan.event === 'raised' && earlier.length > 0 ? 'refined' : plan.event,
      ...{ alarm: alarmDocument(alarm), bedName: bed.name },
      ...{
        line: eventLine(plan.event, alarm, bed),
        longText: longText(plan.event, alarm, bed, site.timezone),
      },
    },
    {
      ...{ sender: capSenderOf(site.id), siteName: site.name, language: 'en', status: 'Actual' },
      identifier: identifierOf({ alarm: alarm.id, event: plan.event, at: now, person: plan.person }),
      ...{ scope: CAP_SCOPE, sentAt: now, earlier: earlier.length > 0 ? earlier : first },
    },
  );
}
