/** How much people are told, and how soon they answer. */
import { median, quantile } from 'simple-statistics';
import { requireInDomain } from '../../errors.js';
import type { Alarm } from '../../model/alarm.js';
import { DAY_ms, EARLIEST_TIME_ms, LATEST_TIME_ms, MINUTE_ms } from '../../model/time.js';
import type { ToldRecord } from './types.js';

/**
 * Alarms that one person at a console of a process plant can deal with in a day: ANSI/ISA-18.2, from memory. A keeper
 * with other work to do can deal with far fewer.
 */
export const RECOMMENDED_RATES = {
  acceptable_per_day: 150,
  most_per_day: 300,
  source: 'ANSI/ISA-18.2, from memory',
} as const;

export interface FiguresInput {
  /** Of which the figures are: from (included) to (not included), wall clock, ms. */
  readonly from: number;
  readonly to: number;
  readonly told: readonly ToldRecord[];
  /** Those that the records are of. */
  readonly alarms: readonly Pick<Alarm, 'id' | 'action' | 'acknowledgement'>[];
}

export interface Figures {
  /** In order of person. */
  readonly people: readonly {
    readonly person: string;
    readonly messages: number;
    readonly messages_per_week: number;
  }[];
  /** Alarms that ask for something and were first told in the time. */
  readonly told: number;
  readonly answered: number;
  /** `answered / told`; null where none was told. */
  readonly answered_share: number | null;
  /**
   * From the first telling to the acknowledgement, of those that were answered: read it beside `answered_share`.
   * Null where none was. An acknowledgement before the first telling counts as 0.
   */
  readonly answer_min: { readonly median: number; readonly percentile_90: number } | null;
  /** Alarms newly told, for each person who was told any and each day; null where nobody was. */
  readonly alarms_per_keeper_day: number | null;
  readonly recommended: typeof RECOMMENDED_RATES;
}

const isIn =
  ({ from, to }: FiguresInput) =>
  ({ at }: { readonly at: number }): boolean =>
    from <= at && at < to;

/**
 * The figures of a time. What was given up by its sender counts for nothing.
 *
 * @throws SandlarderError OUT_OF_DOMAIN unless `from` and `to` are within 2000..2100 and a minute or more apart
 * @remarks A percentile is interpolated between the two values about the rank 1 + 0.9 (n - 1) (R's type 7).
 */
export function figuresOf(input: FiguresInput): Figures {
  const { from, to } = input;
  requireInDomain('from, ms', from, EARLIEST_TIME_ms, LATEST_TIME_ms);
  requireInDomain('to, ms', to, from + MINUTE_ms, LATEST_TIME_ms);
  const days = (to - from) / DAY_ms;
  const received = input.told.filter(({ delivered }) => delivered !== false);
  const people = messagesOf(received.filter(isIn(input)), days);
  const firsts = firstRaisings(received, ({ alarm, person }) => `${alarm} ${person}`).filter(isIn(input));
  return {
    people,
    ...answersOf(input, received),
    alarms_per_keeper_day: people.length === 0 ? null : firsts.length / people.length / days,
    recommended: RECOMMENDED_RATES,
  };
}

function messagesOf(told: readonly ToldRecord[], days: number): Figures['people'] {
  const messages = new Map<string, Set<string>>();
  for (const { person, message } of told)
    messages.set(person, (messages.get(person) ?? new Set<string>()).add(message));
  return [...messages]
    .map(([person, { size }]) => ({ person, messages: size, messages_per_week: (size * 7) / days }))
    .sort((one, other) => (one.person < other.person ? -1 : 1));
}

/** The earliest record of a raising of each key. */
function firstRaisings(told: readonly ToldRecord[], keyOf: (record: ToldRecord) => string): ToldRecord[] {
  const firsts = new Map<string, ToldRecord>();
  for (const record of told.filter(({ event }) => event === 'raised')) {
    const first = firsts.get(keyOf(record));
    if (!first || record.at < first.at) firsts.set(keyOf(record), record);
  }
  return [...firsts.values()];
}

type Answers = Pick<Figures, 'told' | 'answered' | 'answered_share' | 'answer_min'>;

function answersOf(input: FiguresInput, received: readonly ToldRecord[]): Answers {
  const alarms = new Map(input.alarms.map((alarm) => [alarm.id, alarm]));
  const firsts = firstRaisings(received, ({ alarm }) => alarm).filter(isIn(input));
  const asking = firsts.filter(({ alarm }) => (alarms.get(alarm)?.action ?? 'none') !== 'none');
  const waits_min = asking.flatMap(({ alarm, at }) => {
    const answeredAt = alarms.get(alarm)?.acknowledgement?.at;
    return answeredAt === undefined ? [] : [Math.max(0, answeredAt - at) / MINUTE_ms];
  });
  const none = waits_min.length === 0;
  return {
    told: asking.length,
    answered: waits_min.length,
    answered_share: asking.length === 0 ? null : waits_min.length / asking.length,
    answer_min: none ? null : { median: median(waits_min), percentile_90: quantile(waits_min, 0.9) },
  };
}
