/** A made-up site for the tests of planning: two pits, their keepers, a lead. Two hours before UTC all year. */
import { planTelling } from '../../../../services/core/alarms/duty/plan.js';
import type {
  AlarmToTell,
  PersonTelling,
  PersonToTell,
  TellingInput,
  TellingPlan,
  ToldRecord,
} from '../../../../services/core/alarms/duty/types.js';
import { tellingInForce } from '../../../../services/core/model/telling-defaults.js';

export const at = (text: string): number => Date.parse(text);

/** 2026-06-01 at a time of the site's clock. */
export const clock = (text: string, day = 1): number =>
  at(`2026-06-01T${text}:00+02:00`) + (day - 1) * 86_400_000;

export const aPerson = (id: string, otherwise: Partial<PersonToTell> = {}): PersonToTell => ({
  id,
  reach: [
    { via: 'sms', to: `+26097000${id.length}${id.charCodeAt(0)}` },
    { via: 'email', to: `${id}@example.org` },
  ],
  quiet: { from: '20:00', to: '06:00' },
  ...otherwise,
});

export const anUnpack = (id: string, otherwise: Partial<AlarmToTell> = {}): AlarmToTell => ({
  ...{ id, bed: 'pit-a', kind: 'heating', action: 'unpack', priority: 'high' },
  ...{ raisedAt: clock('10:00'), clearedAt: null, acknowledgement: null },
  ...{ withdrawn: false, shelvedUntil: null, movedAt: null, endKnown: false },
  ...otherwise,
});

export const aCheck = (id: string, otherwise: Partial<AlarmToTell> = {}): AlarmToTell =>
  anUnpack(id, { kind: 'damp', action: 'check', priority: 'medium', ...otherwise });

export const ACKNOWLEDGED = { by: 'ana', note: '', at: clock('10:30') } as const;

const SITE: TellingInput = {
  now: clock('10:00'),
  timeZone: 'Africa/Lusaka',
  settings: tellingInForce(undefined),
  people: [aPerson('ana'), aPerson('ben'), aPerson('cy')],
  groups: [],
  beds: [
    { id: 'pit-a', keeper: 'ana' },
    { id: 'pit-b', keeper: 'ben' },
  ],
  ...{ alarms: [], told: [], deadWays: [] },
};

export const aSite = (otherwise: Partial<TellingInput> = {}): TellingInput =>
  Object.freeze({ ...SITE, ...otherwise });

/** `ana sms single raised a1,a2` */
export const inShort = (plan: { readonly tell: readonly PersonTelling[] }): string[] =>
  plan.tell.map(
    ({ person, via, form, event, alarms }) => `${person} ${via} ${form} ${event} ${alarms.join()}`,
  );

export interface Sent extends PersonTelling {
  readonly at: number;
}

/** What was told by a time, and with what input it goes on. */
export interface Lived {
  readonly sent: Sent[];
  readonly input: TellingInput;
  readonly last: TellingPlan;
}

/**
 * Plans, keeps the records and plans again when asked to, until a time.
 *
 * @param delivered what becomes of a record
 */
export function live(
  input: TellingInput,
  until: number,
  delivered: (record: ToldRecord) => ToldRecord['delivered'] = () => true,
): Lived {
  const sent: Sent[] = [];
  let current = input;
  for (let steps = 0; steps < 2000; steps += 1) {
    const plan = planTelling(current);
    sent.push(...plan.tell.map((message) => ({ ...message, at: current.now })));
    const told = [
      ...current.told,
      ...plan.record.map((record) => ({ ...record, delivered: delivered(record) })),
    ];
    current = { ...current, told };
    // What failed is planned anew at the same instant.
    const failed = plan.record.some((record) => delivered(record) === false);
    const next = failed ? current.now : plan.nextAt;
    if (next === null || next > until) return { sent, input: { ...current, now: until }, last: plan };
    current = { ...current, now: next };
  }
  throw new Error('planned 2000 times: a busy loop');
}

/** When and what, by the site's clock. */
export const diary = ({ sent }: Lived): string[] =>
  sent.map((message) => {
    const time = new Date(message.at + 7_200_000).toISOString().slice(8, 16).replace('T', ' ');
    return `${time} ${inShort({ tell: [message] })[0]}`;
  });
