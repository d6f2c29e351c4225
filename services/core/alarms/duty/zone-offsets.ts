/**
 * By how much the clock of an IANA time zone is ahead of UTC. To ask the runtime takes some 0.1 ms, and a plan asks
 * thousands of times for few days: each day is asked once.
 *
 * Offsets are whole minutes from 2000 on, and no zone changes its offset twice within two days.
 */
import { IANAZone } from 'luxon';
import { SandlarderError } from '../../errors.js';
import { DAY_ms, MINUTE_ms } from '../../model/time.js';

/** Offset at a time, ms. */
export type OffsetAt = (time: number) => number;

/** A day in UTC: the offset at its beginning holds until the change, that at its end from then on. */
interface OffsetDay {
  readonly before_ms: number;
  readonly after_ms: number;
  /** Infinite where the offset does not change on the day. */
  readonly changesAt: number;
}

/** Days that are kept of a zone, and zones: what a site asks for, and the changes of the years around it. */
const MOST = { days: 2000, zones: 100 } as const;

const zones = new Map<string, OffsetAt>();

/**
 * The offsets of a zone.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a name that is no IANA time zone
 */
export function offsetsOf(timeZone: string): OffsetAt {
  const known = zones.get(timeZone);
  if (known) return known;
  const zone = IANAZone.create(timeZone);
  if (!zone.isValid)
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `time zone: expected an IANA name, got ${JSON.stringify(timeZone)}`,
    );
  const offsetAt = byDay((time) => zone.offset(time) * MINUTE_ms);
  if (zones.size >= MOST.zones) zones.clear();
  zones.set(timeZone, offsetAt);
  return offsetAt;
}

function byDay(ask: OffsetAt): OffsetAt {
  const days = new Map<number, OffsetDay>();
  return (time) => {
    const day = Math.floor(time / DAY_ms);
    let known = days.get(day);
    if (!known) {
      if (days.size >= MOST.days) days.clear();
      known = offsetDay(day, ask);
      days.set(day, known);
    }
    return time < known.changesAt ? known.before_ms : known.after_ms;
  };
}

function offsetDay(day: number, ask: OffsetAt): OffsetDay {
  const [from, to] = [day * DAY_ms, (day + 1) * DAY_ms];
  const [before_ms, after_ms] = [ask(from), ask(to)];
  const changesAt = before_ms === after_ms ? Number.POSITIVE_INFINITY : jumpBetween(from, to, ask);
  return { before_ms, after_ms, changesAt };
}

/** The first ms with the later offset, by halving. */
export function jumpBetween(earlier: number, later: number, offsetAt: OffsetAt): number {
  const afterwards = offsetAt(later);
  let [low, high] = [earlier, later];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (offsetAt(middle) === afterwards) high = middle;
    else low = middle;
  }
  return high;
}
