/**
 * What needs a person today, in order: from rot that is known to lie in a bed, open alarms, looks that are due, beds that are made ready, probes that
 * nobody describes or that are due for calibration, and the service itself. Each in one sentence.
 */
import type { NamedBed } from '../alarms/text.js';
import { byUrgency } from '../alarms/urgency.js';
import { asksWhatWasDone } from '../alarms/wording.js';
import type { Alarm } from '../model/alarm.js';
import type { Language } from '../model/languages.js';
import type { LookDue } from './looks-due.js';
import type { RotLeft } from './rot-left.js';
import type { TodaySentences } from './today-sentences.js';

/** When it is to be done: at once; with the service, before all that waits for a visit; the rest in the order given. */
export const TODAY_WHEN = ['today', 'service', 'next-visit', 'probe'] as const;
export type TodayWhen = (typeof TODAY_WHEN)[number];

export const TODAY_KINDS = [
  'alarm',
  'service',
  'look',
  'fill',
  'readiness',
  'calibration',
  'unknown-probe',
] as const;
export type TodayKind = (typeof TODAY_KINDS)[number];

/** Who has it in hand: somebody who has seen it, or put it off until a time. */
export interface InHand {
  readonly how: 'seen' | 'put-off';
  readonly by: string;
  /** Wall clock, ms. */
  readonly at: number;
  /** Until when it is put off, ms; null where it is not. */
  readonly until: number | null;
}

export interface TodayItem {
  readonly when: TodayWhen;
  readonly kind: TodayKind;
  readonly site: string | null;
  readonly bed: { readonly id: string; readonly name: string } | null;
  readonly probe: string | null;
  /** Id of the alarm that it comes from; null where it comes from none. */
  readonly alarm: string | null;
  /** Whether it is nothing but a look by hand that is overdue. */
  readonly isOverdueLook: boolean;
  /** What the alarm, or rot that was left, asks for; null where it is neither. */
  readonly action: Alarm['action'] | null;
  /** Since when, event time, ms; null where that is not known. */
  readonly since: number | null;
  readonly inHand: InHand | null;
  readonly text: string;
  /** Tag of the language of the text: English where the language that was asked for has no words for it. */
  readonly language: Language;
}

export interface TodayBed {
  readonly site: string;
  readonly bed: NamedBed & { readonly id: string };
  readonly openAlarms: readonly Alarm[];
  readonly look: LookDue;
  /** Null where none is known to be left. */
  readonly rot: RotLeft | null;
  readonly inspectEvery_days: number;
  /** How far a bed that is not filled was made ready; absent where it is filled, or nobody has begun. */
  readonly readiness?: TodayReadiness | undefined;
}

export interface TodayReadiness {
  /** When it was judged last, ms. */
  readonly at: number;
  readonly verdict: 'ready' | 'not ready' | 'unknown';
  /** Whether somebody has it filled all the same. */
  readonly overridden: boolean;
  readonly notMet: number;
  readonly unknown: number;
}

export interface TodayFacts {
  readonly beds: readonly TodayBed[];
  /** In words: what is wrong with the service. */
  readonly problems: readonly string[];
  readonly unknownProbes: readonly {
    readonly site: string;
    readonly probe: string;
    readonly firstAt: number;
  }[];
  /** Quantities of probes that are due. */
  readonly calibrationsDue: readonly {
    readonly site: string;
    readonly probe: string;
    readonly quantity: 'temperature' | 'humidity';
    readonly dueAt: number;
  }[];
}

type Drafted = Omit<TodayItem, 'text' | 'language'> & { readonly said: TodaySaid };
export interface TodaySaid {
  readonly text: string;
  readonly language: Language;
}

const NOTHING = {
  ...{ site: null, bed: null, probe: null, alarm: null, action: null, since: null, inHand: null },
  isOverdueLook: false,
};

/**
 * In order: by when it is to be done, looks that are overdue after all else, what nobody has in hand first, then by
 * urgency and the longest due first.
 */
export function todayItems(facts: TodayFacts, say: TodaySentences): TodayItem[] {
  const drafted: Drafted[] = [
    ...facts.beds.flatMap((bed) => ofRot(bed, say)).sort(bySince),
    ...facts.beds.flatMap((bed) => ofAlarms(bed, say)).sort(byInHand),
    ...facts.problems.map(
      (problem): Drafted => ({
        ...{ ...NOTHING, when: 'service', kind: 'service' },
        said: say.problem(problem),
      }),
    ),
    ...facts.beds.flatMap((bed) => [...ofLook(bed, say), ...ofReadiness(bed, say)]).sort(bySince),
    ...ofCalibrations(facts, say).sort(bySince),
    ...ofUnknownProbes(facts, say).sort(bySince),
  ];
  return drafted
    .sort(
      (one, other) =>
        TODAY_WHEN.indexOf(one.when) - TODAY_WHEN.indexOf(other.when) ||
        Number(one.isOverdueLook) - Number(other.isOverdueLook),
    )
    .map(({ said, ...item }) => ({ ...item, ...said }));
}

const bySince = (one: Drafted, other: Drafted): number => (one.since ?? 0) - (other.since ?? 0);

/** Within one time to do it; the sort by urgency before it stays. */
const byInHand = (one: Drafted, other: Drafted): number =>
  Number(one.inHand !== null) - Number(other.inHand !== null);

const WHEN_OF = { unpack: 'today', check: 'next-visit', service: 'probe' } as const;

function ofAlarms({ site, bed, openAlarms }: TodayBed, say: TodaySentences): Drafted[] {
  return [...openAlarms].sort(byUrgency).flatMap((alarm): Drafted[] => {
    const { id, action, raisedAt, kind, subject } = alarm;
    if (action === 'none') return [];
    const probe = kind.startsWith('probe-') && subject !== '' ? subject : null;
    return [
      {
        ...{ when: WHEN_OF[action], kind: 'alarm', site, bed: { id: bed.id, name: bed.name }, probe },
        ...{ alarm: id, action, since: raisedAt, inHand: inHandOf(alarm), said: say.alarm(alarm, bed) },
        isOverdueLook: kind === 'inspection-due' && !asksWhatWasDone(alarm),
      },
    ];
  });
}

function inHandOf({ state, acknowledgement, shelving }: Alarm): InHand | null {
  if (state === 'shelved' && shelving)
    return { how: 'put-off', by: shelving.by, at: shelving.at, until: shelving.until };
  return acknowledgement && { how: 'seen', by: acknowledgement.by, at: acknowledgement.at, until: null };
}

/** Known, where an alarm only suspects: it comes first, and stays while an alarm was answered by the look that found it. */
function ofRot({ site, bed, rot }: TodayBed, say: TodaySentences): Drafted[] {
  if (rot === null) return [];
  return [
    {
      ...{ ...NOTHING, when: 'today', kind: 'look', site, bed: { id: bed.id, name: bed.name } },
      ...{ action: 'unpack', since: rot.since, said: say.rotLeft(rot.at, bed) },
    },
  ];
}

/** What an alarm asks for already is not asked for twice: who unpacks a bed looks into it. */
function ofLook(
  { site, bed, look, rot, openAlarms, inspectEvery_days }: TodayBed,
  say: TodaySentences,
): Drafted[] {
  const asked = openAlarms.some(
    ({ kind, action }) => action === 'unpack' || (kind === 'inspection-due' && action === 'check'),
  );
  const reason = look.reasons.find(({ alarm }) => alarm === null);
  if (!look.due || rot !== null || asked || !reason || !(reason.dueAt === look.dueAt)) return [];
  return [
    {
      ...{ ...NOTHING, when: 'next-visit', kind: 'look', site, bed: { id: bed.id, name: bed.name } },
      ...{ isOverdueLook: true, since: reason.dueAt, said: say.look(reason.by, inspectEvery_days, bed) },
    },
  ];
}

function ofReadiness({ site, bed, readiness }: TodayBed, say: TodaySentences): Drafted[] {
  if (!readiness) return [];
  const mayBeFilled = readiness.verdict === 'ready' || readiness.overridden;
  return [
    {
      ...{ ...NOTHING, when: 'next-visit', kind: mayBeFilled ? 'fill' : 'readiness' },
      ...{ site, bed: { id: bed.id, name: bed.name }, since: readiness.at },
      said: say.readiness(readiness, bed),
    },
  ];
}

/** An alarm of a probe in a bed that says the same takes its place. */
function ofCalibrations({ beds, calibrationsDue }: TodayFacts, say: TodaySentences): Drafted[] {
  const told = new Set(
    beds.flatMap(({ site, openAlarms }) =>
      openAlarms
        .filter(({ evidence }) => evidence['fault'] === 'calibration-due')
        .map(({ subject }) => `${site}/${subject}`),
    ),
  );
  return calibrationsDue
    .filter(({ site, probe }) => !told.has(`${site}/${probe}`))
    .map(({ site, probe, quantity, dueAt }) => ({
      ...{ ...NOTHING, when: 'probe', kind: 'calibration', site, probe, since: dueAt },
      said: say.calibration(probe, quantity),
    }));
}

function ofUnknownProbes({ unknownProbes }: TodayFacts, say: TodaySentences): Drafted[] {
  return unknownProbes.map(({ site, probe, firstAt }) => ({
    ...{ ...NOTHING, when: 'probe', kind: 'unknown-probe', site, probe, since: firstAt },
    said: say.unknownProbe(probe, site),
  }));
}
