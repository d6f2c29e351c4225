/** What the HTTP edge needs for telling people and hearing back. */
import type { Figures } from '../core/alarms/duty/index.js';
import type { Finding } from '../core/model/inspection.js';

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

/** What a link shows before it is used. */
export interface LinkView {
  readonly person: string;
  readonly bedName: string;
  readonly text: string;
  /** The alarm is over, or the link was used. */
  readonly over: boolean;
}

export interface LinkAnswer {
  readonly kind: 'seen' | 'found' | 'quiet';
  readonly findings: readonly Finding[];
  readonly repacked: boolean;
  readonly hours: number;
}

export interface TellingView extends Figures {
  readonly site: string;
  readonly languages: readonly {
    readonly language: string;
    readonly name: string;
    readonly draft: boolean;
  }[];
}

export interface PeoplePorts {
  /** Throws NOT_FOUND for a bed that is none. */
  drill(bed: string, by: string): DrillView;
  /** Throws NOT_FOUND. */
  drillOf(id: string): DrillView;
  answers(limit: number): readonly AnswerView[];
  /** Of each site, over the last days. */
  figures(days: number): readonly TellingView[];
  /** Throws NOT_FOUND for a link that is none. */
  link(token: string): LinkView;
  /** Throws CONFLICT for one that was used or whose alarm is over. */
  useLink(token: string, answer: LinkAnswer): LinkView;
  /** A short message that a gateway hands over, as it came. Throws NOT_FOUND where no gateway hands messages over. */
  receive(input: { readonly body: string | undefined; readonly query: string }): void;
}
