/** What the HTTP edge needs for telling people and hearing back. */
import type { Figures } from '../core/alarms/duty/index.js';
import type { Finding } from '../core/model/inspection.js';
import type { Via } from '../core/model/people.js';

/** What became of a marked test. */
export interface DrillView {
  readonly id: string;
  readonly bed: string;
  readonly at: number;
  readonly by: string;
  readonly messages: readonly {
    readonly person: string;
    readonly via: string;
    /** Seconds until it was handed over; null while it was not. */
    readonly after_s: number | null;
    /** Seconds until the network said that the receiver has it; null where it has not said so. */
    readonly received_s: number | null;
    /** Whether it is still tried, or was handed over. */
    readonly gone: boolean;
    readonly error: string | null;
  }[];
  /** People who have no way that can be used here. */
  readonly without: readonly string[];
}

/** A message that came back from a person, or from anybody. */
export interface AnswerView {
  readonly via: string;
  readonly sender: string;
  readonly text: string;
  readonly at: number;
  readonly site: string | null;
  readonly person: string | null;
  readonly outcome: string;
}

/** An alarm that a link's message told of. */
export interface LinkedAlarm {
  /** As it was told. */
  readonly id: string;
  readonly bedName: string;
  /** In the person's language. */
  readonly text: string;
  /** It lasts, and was not answered by this link. */
  readonly open: boolean;
}

export interface LinkView {
  readonly person: string;
  /** A tag such as `sw` or `sw-KE`. */
  readonly language: string;
  readonly title: string;
  /** At least one, the gravest first. */
  readonly alarms: readonly LinkedAlarm[];
}

export interface UsedLink {
  readonly view: LinkView;
  /** What was written down, in the person's language. */
  readonly said: string;
}

export interface LinkAnswer {
  readonly kind: 'seen' | 'found' | 'quiet';
  readonly findings: readonly Finding[];
  readonly repacked: boolean;
  readonly hours: number;
  /** For which of the link's alarms; all that are open where absent. */
  readonly alarm: string | undefined;
}

export interface TellingView extends Figures {
  readonly site: string;
  readonly languages: readonly {
    readonly language: string;
    readonly name: string;
    readonly draft: boolean;
  }[];
}

/** A way by which people can be told, and whether this service has it. */
export interface WayView {
  readonly via: Via;
  readonly usable: boolean;
  readonly answers: boolean;
}

export interface PeoplePorts {
  ways(): readonly WayView[];
  /** Throws NOT_FOUND for a bed that is none. */
  drill(bed: string, by: string): DrillView;
  /** Throws NOT_FOUND. */
  drillOf(id: string): DrillView;
  answers(limit: number): readonly AnswerView[];
  /** Of each site, over the last days. */
  figures(days: number): readonly TellingView[];
  /** Throws NOT_FOUND for a link that is none. */
  link(token: string): LinkView;
  /**
   * Throws CONFLICT where all was answered or is over, BAD_REQUEST for what was found in one of several beds that is not
   * named.
   */
  useLink(token: string, answer: LinkAnswer): UsedLink;
  /** A short message that a gateway hands over, as it came. Throws NOT_FOUND where no gateway hands messages over. */
  receive(input: { readonly body: string | undefined; readonly query: string }): void;
}
