/** An alarm as the service tells it; times are RFC 3339 text. */
export interface Alarm {
  readonly id: string;
  readonly bed: string;
  readonly kind: string;
  readonly priority: 'high' | 'medium' | 'low';
  readonly state: 'unacknowledged' | 'acknowledged' | 'returned-unacknowledged' | 'normal' | 'shelved';
  /** Event times. */
  readonly raisedAt: string;
  readonly clearedAt: string | null;
  readonly action: 'unpack' | 'check' | 'service' | 'none';
  /** As it is known by now; `probe` where it rests on one. */
  readonly evidence: Readonly<Record<string, number | string>>;
  readonly place: Place | null;
  readonly text: string;
  /** Of the text. */
  readonly language?: string;
}

/** Where to dig, cm: from the north-west corner of the opening, down from the top of the sand. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  readonly radius: number;
}
