/** What became of an alarm, in order of time. */
import type { FoundOut, Shelving, Verdict } from '../../model/alarm.js';
import type { Inspection } from '../../model/inspection.js';
import type { ToldRecord } from '../duty/index.js';
import type { AlarmEvent } from '../text.js';

/**
 * - `raised`, `cleared`: when it was, by what was measured
 * - `known`, `ended`, `moved`, `withdrawn`: when the service came to know of its raising, its end, another place, or that
 *   it never was
 * - `told`: a message to a person
 * - `acknowledged`, `shelved`: what people answered
 * - `looked`: an inspection that speaks of it
 */
export interface HistoryEvent {
  readonly what:
    | 'raised'
    | 'known'
    | 'told'
    | 'moved'
    | 'acknowledged'
    | 'shelved'
    | 'looked'
    | 'cleared'
    | 'ended'
    | 'withdrawn';
  /** ms. */
  readonly at: number;
  /** Whether that is a time of the probes and of people at the bed, or of the service's own clock. */
  readonly clock: 'event' | 'service';
  /** The person's name, where somebody did it or was told. */
  readonly by?: string;
  readonly note?: string;
  readonly told?: {
    readonly person: string;
    readonly via: string;
    readonly event: AlarmEvent;
    /** 0 for whoever keeps or follows the bed, then the steps of the escalation. */
    readonly step: number;
    /** null while it is on its way. */
    readonly delivered: boolean | null;
  };
  /** End of the silence, ms. */
  readonly until?: number;
  readonly looked?: {
    readonly inspection: string;
    readonly found: readonly string[];
    /** What it says of the alarm; null for a look on which the verdict does not rest. */
    readonly verdict: Verdict | null;
  };
}

export interface HistoryParts {
  readonly alarm: {
    readonly raisedAt: number;
    readonly clearedAt: number | null;
    readonly knownAt: number | null;
    readonly endKnownAt: number | null;
    readonly movedAt: number | null;
    readonly withdrawn: boolean;
    readonly acknowledgement: { readonly by: string; readonly note: string; readonly at: number } | null;
    readonly shelving: Shelving | null;
  };
  readonly told: readonly ToldRecord[];
  /** By id of the person. */
  readonly names: ReadonlyMap<string, string>;
  /** Those within the time in which an inspection speaks of it. */
  readonly looks: readonly Inspection[];
  readonly foundOut: FoundOut;
}

/** At one time the cause before what follows from it. */
const ORDER: readonly HistoryEvent['what'][] = [
  ...(['raised', 'known', 'moved', 'told', 'shelved', 'acknowledged'] as const),
  ...(['looked', 'cleared', 'ended', 'withdrawn'] as const),
];

type Alarm = HistoryParts['alarm'];

const event = (at: number, what: 'raised' | 'cleared'): HistoryEvent => ({ what, at, clock: 'event' });

function known(at: number | null, what: 'known' | 'moved' | 'ended' | 'withdrawn'): HistoryEvent[] {
  return at === null ? [] : [{ what, at, clock: 'service' }];
}

function lifeOf({ raisedAt, clearedAt, knownAt, movedAt, endKnownAt, withdrawn }: Alarm): HistoryEvent[] {
  return [
    event(raisedAt, 'raised'),
    ...known(knownAt, 'known'),
    ...known(movedAt, 'moved'),
    ...(clearedAt === null ? [] : [event(clearedAt, 'cleared')]),
    ...known(endKnownAt, withdrawn ? 'withdrawn' : 'ended'),
  ];
}

function answersTo({ acknowledgement, shelving }: Alarm): HistoryEvent[] {
  return [
    ...(acknowledgement ? [{ what: 'acknowledged', clock: 'service', ...acknowledgement } as const] : []),
    ...(shelving ? [{ what: 'shelved', clock: 'service', ...shelving } as const] : []),
  ];
}

function toldOf({ told, names }: HistoryParts): HistoryEvent[] {
  return told.map(({ at, person, way, event: of, step, delivered }) => ({
    ...{ what: 'told', at, clock: 'service', by: names.get(person) ?? person },
    told: { person, via: way.via, event: of, step, delivered },
  }));
}

function looksAt({ looks, foundOut }: HistoryParts): HistoryEvent[] {
  return looks.map(({ id, at, by, note, found }) => ({
    ...{ what: 'looked', at, clock: 'event', by, ...(note !== undefined && { note }) },
    looked: { inspection: id, found, verdict: at === foundOut.lookedAt ? foundOut.verdict : null },
  }));
}

/** In order of time. */
export function historyOf(parts: HistoryParts): HistoryEvent[] {
  const events = [...lifeOf(parts.alarm), ...toldOf(parts), ...answersTo(parts.alarm), ...looksAt(parts)];
  return events.sort(
    (one, other) => one.at - other.at || ORDER.indexOf(one.what) - ORDER.indexOf(other.what),
  );
}
