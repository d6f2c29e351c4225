/** Telling people over a real database: alarms as the watch would find them, a wall clock that a test moves. */
import type { Episode } from '../../services/core/model/alarm.js';
import { HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import type { TimedChange } from '../../services/core/watch/episodes.js';
import { AlarmKeeper } from '../../services/joining/alarm-keeper.js';
import { AnswerDesk } from '../../services/joining/answer-desk.js';
import { AnswerLinks } from '../../services/joining/answer-links.js';
import { DrillDesk } from '../../services/joining/drill-desk.js';
import { DutyDesk, type DutyOptions } from '../../services/joining/duty-desk.js';
import { openStation } from './station.js';

/** 2026-06-01, a Monday, at a time of the clock in Lusaka, ms: two hours before UTC all year. */
export const clock = (text: string, day = 1): number =>
  Date.parse(`2026-06-01T${text}:00+02:00`) + (day - 1) * 24 * HOUR_ms;

const STEPS = [{ length: 150, width: 100, height: 50 }];
export const FILLED = '2026-05-04T08:00:00Z';
export const PHONE = { ana: '+260970000001', ben: '+260970000002', cy: '+260970000003' } as const;

export const aBed = (id: string, part: object = {}): object => ({
  ...{ id, name: id.replace('pit-', 'Pit ').toUpperCase().replace('PIT', 'Pit'), kind: 'stepped-pit' },
  ...{ steps: STEPS, filled: FILLED, keeper: 'ana', ...part },
});

export const aKeeper = (id: keyof typeof PHONE, part: object = {}): object => ({
  ...{ id, name: id[0]?.toUpperCase() + id.slice(1), language: 'en' },
  reach: [
    { via: 'sms', to: PHONE[id] },
    { via: 'email', to: `${id}@store.example` },
  ],
  quiet: { from: '20:00', to: '06:00' },
  ...part,
});

/** Invented. Three pits, all of Ana's; Ben and Cy are there. */
export const SITE = {
  version: 1,
  site: { id: 'ridge', name: 'Ridge', timezone: 'Africa/Lusaka' },
  beds: ['pit-a', 'pit-b', 'pit-c'].map((id) => aBed(id)),
  people: [aKeeper('ana'), aKeeper('ben'), aKeeper('cy')],
};

export interface Posted {
  readonly key: string;
  readonly via: string;
  readonly to: string;
  readonly at: number;
  readonly body: {
    readonly event: string;
    readonly text: string;
    readonly longText: string;
    readonly subject: string;
    readonly language: string;
    readonly number?: number;
    readonly answerUrl?: string;
  };
}

type Raised = Partial<Pick<Episode, 'kind' | 'action' | 'priority' | 'subject' | 'evidence'>>;

export function openDuty(
  site: unknown = SITE,
  options: Partial<DutyOptions> & { readonly directory?: string; readonly publicUrl?: string } = {},
) {
  let time = clock('10:00');
  const now = (): number => time;
  const station = openStation({ now, ...(options.directory && { directory: options.directory }) });
  station.load(site, clock('08:00'));
  station.station.refresh();
  const { registry } = station;
  const keeper = new AlarmKeeper(registry, {
    ...{ webhooks: [], now, onRaised: () => undefined },
    onChange: ({ bed }, ids) => station.station.changes.alarms(bed.id, ids),
    onUnusable: () => undefined,
  });
  const links = new AnswerLinks(registry, options.publicUrl ?? 'https://store.example', now);
  const unreachable: string[][] = [];
  const duty = new DutyDesk(registry, {
    ...{ now, hasWay: (via) => via === 'sms' || via === 'email', answers: (via) => via === 'sms' },
    linkFor: (alarm, person, message) => links.make(alarm, person, message),
    onUnreachable: (_site, alarms) => void unreachable.push([...alarms]),
    ...options,
  });
  const stopped: string[] = [];
  const answers = new AnswerDesk(station.station, station.views, now, (who) => void stopped.push(who));
  const drills = new DrillDesk(registry, {
    now,
    hasWay: options.hasWay ?? ((via) => via === 'sms' || via === 'email'),
    webhooks: [],
  });
  const lives = new Map<string, TimedChange[]>();
  let shown = 0;

  const reconcile = (bed: string): void => {
    const known = station.station.directory.beds.get(bed);
    if (!known) throw new Error(`no bed ${bed}`);
    const changes = [...(lives.get(bed) ?? [])].sort((one, other) => one.at - other.at);
    station.station.inTransaction(() => keeper.reconcile(known, { since: 0, open: [], changes }));
  };
  const change = (bed: string, entry: TimedChange): void => {
    lives.set(bed, [...(lives.get(bed) ?? []), entry]);
    reconcile(bed);
  };
  const posted = (): Posted[] =>
    (
      station.database
        .prepare(
          "SELECT key, via, target AS 'to', body, created_at AS at FROM outbox WHERE via <> 'console' ORDER BY rowid",
        )
        .all() as (Omit<Posted, 'body'> & { body: string })[]
    ).map((one) => ({ ...one, body: JSON.parse(one.body) as Posted['body'] }));

  return {
    ...station,
    ...{ now, links, duty, answers, drills, unreachable, stopped, posted },
    goTo: (at: number) => {
      time = at;
    },
    pass: (minutes: number) => {
      time += minutes * MINUTE_ms;
    },
    /** By default an `unpack` for heating, at this minute. @returns its id */
    raise: (bed: string, part: Raised = {}, at = time): string => {
      const { kind = 'heating', action = 'unpack', priority = 'high', subject = '', evidence = {} } = part;
      change(bed, { ...{ type: 'raise', kind, action, subject, priority, evidence, place: null, at } });
      const open = registry.alarms.open(bed).find((row) => row.kind === kind && row.action === action);
      if (!open) throw new Error(`${bed} ${kind} is not open`);
      return open.id;
    },
    clear: (bed: string, part: Raised = {}, at = time): void => {
      const { kind = 'heating', action = 'unpack', subject = '' } = part;
      change(bed, { type: 'clear', kind, action, subject, at });
    },
    /** Late readings change what was: the bed's story is another. */
    retell: (bed: string, edit: (story: readonly TimedChange[]) => readonly TimedChange[]): void => {
      lives.set(bed, [...edit(lives.get(bed) ?? [])]);
      reconcile(bed);
    },
    plan: (): number | null => station.station.inTransaction(() => duty.plan()),
    /** Messages to people that are new since this was asked last, `ana sms raised: text`. */
    fresh: (): Posted[] => {
      const all = posted();
      const some = all.slice(shown);
      shown = all.length;
      return some;
    },
    /** All that waits is delivered. */
    deliver: (): void => {
      for (const { key } of registry.outbox.due(Number.MAX_SAFE_INTEGER, 10_000))
        registry.outbox.delivered(key, time);
    },
    /** So many attempts at all that waits for a way have failed. */
    fail: (via: string, times = 3): void => {
      for (const message of registry.outbox.due(Number.MAX_SAFE_INTEGER, 10_000))
        if (message.via === via)
          for (let attempt = 0; attempt < times; attempt += 1)
            registry.outbox.failed(message.key, time, time + 60_000, 'no network');
    },
  };
}

export type Duty = ReturnType<typeof openDuty>;

/** `ana sms raised` */
export const inShort = (messages: readonly Posted[]): string[] =>
  messages.map(({ to, via, body }) => {
    const [name = to] =
      Object.entries(PHONE).find(([id, phone]) => phone === to || to === `${id}@store.example`) ?? [];
    return `${name} ${via} ${body.event}`;
  });
