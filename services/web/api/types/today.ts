/** What needs a person, as the service tells it; times are RFC 3339 text. */
export interface Today {
  readonly at: string;
  /** The most pressing first. */
  readonly items: readonly TodayItem[];
  /** Further ones, for which there was no room. */
  readonly more: number;
}

export const WHENS = ['today', 'service', 'next-visit', 'probe'] as const;
export type When = (typeof WHENS)[number];

export interface TodayItem {
  readonly when: When;
  readonly kind: 'alarm' | 'service' | 'look' | 'fill' | 'readiness' | 'calibration' | 'unknown-probe';
  readonly bed: { readonly id: string; readonly name: string } | null;
  readonly probe: string | null;
  /** Id of the alarm that it comes from. */
  readonly alarm: string | null;
  /** Whether it is nothing but a look by hand that is overdue; absent from what was seen of services before they told it. */
  readonly isOverdueLook?: boolean;
  readonly since: string | null;
  readonly inHand: {
    readonly how: 'seen' | 'put-off';
    readonly by: string;
    readonly until: string | null;
  } | null;
  readonly text: string;
  /** Of the text. */
  readonly language: string;
}
