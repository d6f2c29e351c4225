/** A site description as the service tells it, in the form of a site file; times are RFC 3339 text, lengths cm. */
export interface SiteLine {
  readonly id: string;
  readonly name: string;
  readonly timezone: string;
  readonly beds: number;
  readonly probes: number;
  readonly people: number;
  readonly groups: number;
}

export interface SiteDescription {
  readonly site: Particulars;
  readonly beds: readonly DescribedBed[];
  readonly probes: readonly DescribedProbe[];
  readonly people: readonly Person[];
  readonly groups: readonly PeopleGroup[];
}

export interface EscalationStep {
  readonly to: string;
  readonly after_min: number;
}

export type Overrides = Readonly<Record<string, number>>;

export interface Particulars {
  readonly id: string;
  readonly name: string;
  readonly timezone: string;
  readonly thresholds?: Overrides | undefined;
  readonly escalation?: readonly EscalationStep[] | undefined;
  readonly telling?: Readonly<Record<string, unknown>> | undefined;
}

export interface DescribedStep {
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly x?: number | undefined;
  readonly y?: number | undefined;
}

export interface DescribedBed {
  readonly id: string;
  readonly name: string;
  readonly kind: 'stepped-pit' | 'box';
  readonly steps: readonly DescribedStep[];
  readonly filled?: string | undefined;
  readonly keeper?: string | undefined;
  readonly thresholds?: Overrides | undefined;
  readonly escalation?: readonly EscalationStep[] | undefined;
}

export interface Placement {
  readonly bed?: string;
  readonly x?: number;
  readonly y?: number;
  readonly depth?: number;
  readonly ambient?: true;
  readonly from: string;
  readonly to?: string;
}

export interface DescribedProbe {
  readonly id: string;
  readonly model?: string | undefined;
  readonly placements: readonly Placement[];
}

export const VIAS = ['sms', 'email', 'webhook', 'console'] as const;
export type Via = (typeof VIAS)[number];

export interface Reach {
  readonly via: Via;
  readonly to: string;
  readonly body?: 'json' | 'cap' | undefined;
}

export interface Person {
  readonly id: string;
  readonly name: string;
  readonly language: string;
  readonly reach: readonly Reach[];
  readonly quiet?: { readonly from: string; readonly to: string } | undefined;
  readonly beds?: readonly string[] | undefined;
  readonly kinds?: readonly string[] | undefined;
  readonly lead?: boolean | undefined;
}

export interface PeopleGroup {
  readonly id: string;
  readonly name: string;
  readonly lead: string;
  readonly members: readonly string[];
}

/** What became of a change. */
export interface Changed<Entry> {
  readonly version: number;
  readonly changed: boolean;
  readonly entry: Entry;
  /** English sentences. */
  readonly follows: readonly string[];
}

export interface SiteChange {
  readonly version: number;
  readonly at: string;
  readonly by: string | null;
  readonly kind: 'site' | 'bed' | 'probe' | 'person' | 'group';
  readonly id: string;
  readonly isNew: boolean;
}
