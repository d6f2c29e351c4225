/**
 * Which beds are due for a look by hand, and why: by rule, by the warmth that the watch has summed up, by an open alarm.
 */
import type { Alarm } from '../model/alarm.js';
import { DAY_ms } from '../model/time.js';
import type { NextLook } from '../watch/thermal-time/index.js';

export const LOOK_DUE_BY = ['unpack', 'rot', 'alarm', 'rule', 'warmth', 'sprouting', 'weevils'] as const;

export interface LookReason {
  /** `unpack` and `alarm`: an open alarm asks for it; `rot`: some was found and left; `rule`: so many days after the last; the others: warm sand. */
  readonly by: (typeof LOOK_DUE_BY)[number];
  /** Since when, or from when on, ms. */
  readonly dueAt: number;
  readonly text: string;
  /** Id of the alarm that asks for it; null where none does. */
  readonly alarm: string | null;
}

export interface LookDue {
  readonly due: boolean;
  /** Since when, or from when on, ms; null where nothing says so: the bed is empty, or was never filled. */
  readonly dueAt: number | null;
  /** In the order in which they fall due. */
  readonly reasons: readonly LookReason[];
}

export interface LookedAfter {
  /** When it was filled last, ms; null where nobody said so. */
  readonly filledAt: number | null;
  /** When it was opened last, ms; null where it was not, or before it was filled. */
  readonly lookedAt: number | null;
  /** Whether its ledger says that no root is left in it. */
  readonly empty: boolean;
  readonly inspectEvery_days: number;
  /** Since when rot is known to lie in it, ms; null where none is. */
  readonly rotSince: number | null;
  /** As the watch has it; null where it has none. */
  readonly nextLook: NextLook | null;
  readonly openAlarms: readonly Pick<Alarm, 'id' | 'kind' | 'action' | 'raisedAt' | 'text' | 'evidence'>[];
}

const WARM_WORDS = {
  warmth: 'sooner than the usual look, because the bed is warm',
  sprouting: 'warm enough for so long that sprouts are likely',
  weevils: 'warm enough for so long that weevils may be about to emerge',
} as const;

/** @param now wall clock, ms */
export function lookDue(bed: LookedAfter, now: number): LookDue {
  const reasons = [...byRot(bed), ...byAlarms(bed), ...byRule(bed), ...byWarmth(bed)].sort(
    (one, other) => one.dueAt - other.dueAt,
  );
  const [first] = reasons;
  return { due: first !== undefined && first.dueAt <= now, dueAt: first?.dueAt ?? null, reasons };
}

/** A look that was had answers an alarm that asks for one; to unpack is asked for until it is over. */
function byAlarms({ openAlarms, lookedAt }: LookedAfter): LookReason[] {
  return openAlarms.flatMap(({ id, kind, action, raisedAt, text, evidence }): LookReason[] => {
    // Of these only the question whether somebody opened the bed is no sum of days or of warmth.
    if (kind === 'inspection-due' && evidence.because !== 'asked') return [];
    if (action === 'unpack') return [{ by: 'unpack', dueAt: raisedAt, text, alarm: id }];
    if (action !== 'check' || (lookedAt !== null && lookedAt >= raisedAt)) return [];
    return [{ by: 'alarm', dueAt: raisedAt, text, alarm: id }];
  });
}

const byRot = ({ rotSince }: LookedAfter): LookReason[] =>
  rotSince === null
    ? []
    : [{ by: 'rot', dueAt: rotSince, text: 'rot was found and the bed was not repacked', alarm: null }];

function byRule({ filledAt, lookedAt, empty, inspectEvery_days }: LookedAfter): LookReason[] {
  const last = lookedAt ?? filledAt;
  if (last === null || empty) return [];
  const since = lookedAt === null ? 'it was filled' : 'it was opened last';
  return [
    {
      by: 'rule',
      dueAt: last + inspectEvery_days * DAY_ms,
      text: `${inspectEvery_days} days after ${since}`,
      alarm: null,
    },
  ];
}

/** The alarm `inspection-due` says the same of a look that has come due. */
function byWarmth({ nextLook, empty, openAlarms }: LookedAfter): LookReason[] {
  if (!nextLook || empty || nextLook.because === 'two-weeks') return [];
  const { because, dueAt } = nextLook;
  const alarm = openAlarms.find(({ kind }) => kind === 'inspection-due')?.id ?? null;
  return [{ by: because, dueAt: Math.round(dueAt), text: WARM_WORDS[because], alarm }];
}
