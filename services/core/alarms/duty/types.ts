/** What the planning of messages to people takes and gives. */
import type { Alarm } from '../../model/alarm.js';
import type { Escalation, Group, Quiet, WebhookBody } from '../../model/people.js';
import type { TellingInForce } from '../../model/telling-defaults.js';
import type { AlarmEvent } from '../text.js';

/** A way of reaching one person. */
export interface ReachWay {
  readonly via: string;
  readonly to: string;
  /** Of a webhook. */
  readonly body?: WebhookBody | undefined;
}

export interface PersonToTell {
  readonly id: string;
  /** In order of preference. */
  readonly reach: readonly ReachWay[];
  readonly quiet?: Quiet | undefined;
  readonly beds?: readonly string[] | undefined;
  readonly kinds?: readonly string[] | undefined;
  readonly lead?: boolean | undefined;
}

export interface BedToTell {
  readonly id: string;
  /** When it was filled last, ms: a season begins. */
  readonly filled?: number | undefined;
  /** Id of a person or of a group. */
  readonly keeper?: string | undefined;
  /** The bed's own, in the place of the site's. */
  readonly escalation?: Escalation | undefined;
}

/** An alarm and what telling people needs to know of it. All times are ms; those of knowing are of the wall clock. */
export interface AlarmToTell
  extends Pick<
    Alarm,
    'id' | 'bed' | 'kind' | 'action' | 'priority' | 'raisedAt' | 'clearedAt' | 'acknowledgement'
  > {
  /** Readings that came in later show that it never was. */
  readonly withdrawn: boolean;
  /** Put off until then; null where it is not. */
  readonly shelvedUntil: number | null;
  /** When it became known that its place lies elsewhere than people may have been told; null where it does not. */
  readonly movedAt: number | null;
  /** People know of its end without being told: they opened the bed, or a graver alarm took its place. */
  readonly endKnown: boolean;
  /** When its raising became known; its event time where absent. */
  readonly knownAt?: number | undefined;
  /** When its end became known; its event time where absent. */
  readonly endKnownAt?: number | undefined;
  /** Alarms that people take for this one: what they were told of those, they were told of this. */
  readonly formerly?: readonly string[] | undefined;
}

/**
 * How long a message may wait.
 *
 * - `at-once`: whatever the hour: `unpack`, and where to dig for it
 * - `by-day`: until the end of quiet hours: that an `unpack` is over
 * - `morning`: until the person's next morning, with all else that waits
 */
export type Pace = 'at-once' | 'by-day' | 'morning';
export type Form = 'single' | 'bundle' | 'summary';

/** That one person was told of one event of one alarm; to be kept as it is given. */
export interface ToldRecord {
  /** The message it was part of, as in `Telling.key`. */
  readonly message: string;
  readonly alarm: string;
  readonly bed: string;
  readonly person: string;
  readonly event: AlarmEvent;
  /** Wall clock, ms. */
  readonly at: number;
  readonly way: ReachWay;
  /** 0 for whoever keeps or follows the bed, then the steps of the escalation. */
  readonly step: number;
  readonly form: Form;
  readonly pace: Pace;
  readonly caution: boolean;
  readonly closing: boolean;
  /** Whether the receiver has it: null while it is on its way, false once nothing more is tried. */
  readonly delivered: boolean | null;
}

/** One message to one person. */
export interface PersonTelling extends ReachWay {
  /** Unique for ever. */
  readonly key: string;
  readonly person: string;
  readonly form: Form;
  /** Of its first alarm; others may be in `events`. */
  readonly event: AlarmEvent;
  /** Ids, the most urgent first; in `events` what happened to each. */
  readonly alarms: readonly string[];
  readonly events: readonly AlarmEvent[];
  /** The highest of its alarms. */
  readonly step: number;
  /** It is the first this season to tell this person to unpack the bed: say with what care. */
  readonly caution: boolean;
  /** Nothing more is told of its bed today but a new `unpack`. */
  readonly closing: boolean;
  /** People of the steps before who were told and have not answered. */
  readonly unanswered: readonly string[];
  /** People of the steps before who could not be reached. */
  readonly unreached: readonly string[];
}

export interface TellingInput {
  /** Wall clock, ms. */
  readonly now: number;
  /** IANA name. */
  readonly timeZone: string;
  readonly settings: TellingInForce;
  /** The site's, for beds without their own. */
  readonly escalation?: Escalation | undefined;
  readonly people: readonly PersonToTell[];
  readonly groups: readonly Group[];
  readonly beds: readonly BedToTell[];
  /** Of one site: the open ones, and those that ended lately. */
  readonly alarms: readonly AlarmToTell[];
  /** Of these alarms, and of the site's last two days; of unpack since the beds were filled. */
  readonly told: readonly ToldRecord[];
  /** Ways by which nothing arrives at present. */
  readonly deadWays: readonly ReachWay[];
}

export interface TellingPlan {
  readonly tell: readonly PersonTelling[];
  /** To be kept in the transaction that hands over `tell`; one for each alarm of each message. */
  readonly record: readonly ToldRecord[];
  /** Alarms of which nobody who should be told can be told now, in order of id. */
  readonly unreachable: readonly string[];
  /** When to plan again if nothing changes by then, ms, after `now`; null where only a change can ask for it. */
  readonly nextAt: number | null;
}
