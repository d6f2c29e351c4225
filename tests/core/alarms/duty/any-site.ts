/** Made-up sites of all kinds for the properties of planning, about the days on which clocks change. */
import fc from 'fast-check';
import type {
  AlarmToTell,
  BedToTell,
  PersonToTell,
  TellingInput,
  ToldRecord,
} from '../../../../services/core/alarms/duty/types.js';
import { ACTIONS, ALARM_KINDS, PRIORITIES } from '../../../../services/core/model/alarm.js';
import { tellingInForce } from '../../../../services/core/model/telling-defaults.js';
import { DAY_ms, MINUTE_ms } from '../../../../services/core/model/time.js';

/** Zones, each with a day on which its clock changes in 2026. */
const CHANGES = [
  ['Africa/Lusaka', '2026-06-01'],
  ['Europe/Berlin', '2026-03-29'],
  ['Europe/Berlin', '2026-10-25'],
  ['Australia/Lord_Howe', '2026-04-05'],
  ['Australia/Lord_Howe', '2026-10-04'],
  ['Africa/Casablanca', '2026-02-15'],
  ['Africa/Casablanca', '2026-03-22'],
  ['Asia/Kathmandu', '2026-06-01'],
] as const;

const NAMES = ['ana', 'ben', 'cy', 'dot'] as const;
const BEDS = ['pit-a', 'pit-b'] as const;

const clockTime = fc
  .tuple(fc.integer({ min: 0, max: 23 }), fc.constantFrom('00', '30'))
  .map(([hour, minutes]) => `${String(hour).padStart(2, '0')}:${minutes}`);
const optional = <Value>(value: fc.Arbitrary<Value>): fc.Arbitrary<Value | undefined> =>
  fc.option(value, { nil: undefined });

const person = (id: string): fc.Arbitrary<PersonToTell> =>
  fc.record({
    id: fc.constant(id),
    reach: fc.subarray([
      { via: 'sms', to: `+2609700000${id.length}` },
      { via: 'email', to: `${id}@example.org` },
    ]),
    quiet: optional(
      fc
        .record({ from: clockTime, to: clockTime })
        .filter(({ from, to }) => from.slice(0, 2) !== to.slice(0, 2)),
    ),
    beds: optional(fc.subarray([...BEDS])),
    kinds: fc.constantFrom(undefined, undefined, undefined, ['heating', 'damp']),
    lead: fc.constantFrom(undefined, undefined, true),
  });

const escalation = fc
  .subarray([...NAMES, 'ridge'])
  .chain((ids) =>
    fc.tuple(
      ...ids.map((to) => fc.record({ to: fc.constant(to), after_min: fc.integer({ min: 5, max: 300 }) })),
    ),
  );

const bed = (id: string): fc.Arbitrary<BedToTell> =>
  fc.record({
    id: fc.constant(id),
    keeper: optional(fc.constantFrom(...NAMES, 'ridge')),
    escalation: optional(escalation),
  });

const alarm = (id: string, noon: number): fc.Arbitrary<AlarmToTell> => {
  const time = fc.integer({ min: -36 * 60, max: 36 * 60 }).map((minutes) => noon + minutes * MINUTE_ms);
  return fc
    .record({
      id: fc.constant(id),
      bed: fc.constantFrom(...BEDS),
      kind: fc.constantFrom(...ALARM_KINDS),
      action: fc.constantFrom('unpack' as const, 'unpack' as const, ...ACTIONS),
      priority: fc.constantFrom(...PRIORITIES),
      raisedAt: time,
      lasts: fc.constantFrom(null, null, 60 * MINUTE_ms),
      acknowledgement: fc.constantFrom(null, null, null, { by: 'ana', note: '', at: noon }),
      withdrawn: fc.constantFrom(false, false, false, true),
      shelvedUntil: fc.option(time, { freq: 2 }),
      movedAt: fc.option(time, { freq: 2 }),
      endKnown: fc.boolean(),
    })
    .map(({ lasts, ...rest }) => ({ ...rest, clearedAt: lasts === null ? null : rest.raisedAt + lasts }));
};

const settings = fc
  .record({
    morning: clockTime,
    most_per_bed_a_day: fc.integer({ min: 2, max: 5 }),
    storm: fc.record({ alarms: fc.integer({ min: 2, max: 5 }), within_min: fc.constantFrom(10, 60) }),
    repeat_after_h: fc.constantFrom(1, 6, 24),
    give_up_after_h: fc.constantFrom(1, 48, 168),
  })
  .map(tellingInForce);

/** A site a day and a half before its clock changes, where nothing was told yet. */
export const anySite: fc.Arbitrary<TellingInput> = fc.constantFrom(...CHANGES).chain(([timeZone, day]) => {
  const noon = Date.parse(`${day}T12:00:00Z`);
  return fc.record({
    now: fc.constant(noon - 1.5 * DAY_ms),
    timeZone: fc.constant(timeZone),
    settings,
    escalation: optional(escalation),
    people: fc.tuple(...NAMES.map(person)),
    groups: fc.constant([{ id: 'ridge', name: 'Ridge', lead: 'cy', members: ['ana', 'cy'] }]),
    beds: fc.tuple(...BEDS.map(bed)),
    alarms: fc.tuple(...['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'].map((id) => alarm(id, noon))),
    told: fc.constant([]),
    deadWays: fc.subarray([
      { via: 'sms', to: '+26097000003' },
      { via: 'email', to: 'ben@example.org' },
    ]),
  });
});

/** What becomes of messages: a fixed share of them fails, by a number of one's own. */
export const fate =
  (salt: number) =>
  ({ message, alarm: id }: ToldRecord): ToldRecord['delivered'] => {
    const text = `${message} ${id.length} ${salt}`;
    const sum = [...text].reduce((total, letter) => (total * 31 + letter.charCodeAt(0)) % 1009, 7);
    return sum % 5 === 0 ? false : sum % 5 === 1 ? null : true;
  };
