/** What the intake needs of the rest: declared here, joined in serve.ts. */
import type { Quantity } from '../core/model/quantity.js';

/** One measured value, with its unit already converted. */
export interface Measured {
  readonly quantity: Quantity;
  /** Event time, ms. */
  readonly time: number;
  readonly value: number;
}

/** Why something was kept out. The list is closed: reasons are labels of a counter. */
export const REASONS = [
  'topic-unknown',
  'payload-empty',
  'payload-too-long',
  'not-json',
  'not-senml',
  'too-many-records',
  'name-unknown',
  'unit-unknown',
  'value-missing',
  'value-out-of-range',
  'time-too-early',
  'time-in-future',
  'before-placement',
  'value-conflict',
  'status-unknown',
  'apart-full',
] as const;
export type Reason = (typeof REASONS)[number];

/** Something set aside: with its reason in a sentence that says what was expected and what came. */
export interface SetAside {
  readonly reason: Reason;
  readonly detail: string;
}

/** A message as it arrived. */
export interface Incoming {
  readonly topic: string;
  readonly payload: Uint8Array;
  /** Wall clock at arrival, ms. */
  readonly receivedAt: number;
}

/** What became of a message: what can be stored, and what cannot and why. */
export interface ReadMessage {
  readonly kind: 'readings' | 'status' | 'other';
  readonly site: string;
  readonly probe: string;
  readonly measured: readonly Measured[];
  readonly online?: boolean;
  readonly setAside: readonly SetAside[];
}

/** Called once for a message when it is durably kept; only then may the sender be told so. */
export type Acknowledge = () => void;

/** Where a broker hands its messages. */
export interface Sink {
  /**
   * @returns false where there is no room: the message was dropped and will never be acknowledged, and the broker
   * must see to it that the sender repeats it
   */
  accept(message: Incoming, acknowledge: Acknowledge): boolean;
}

/** What the service itself publishes: for lamps and buzzers. */
export interface Message {
  readonly topic: string;
  readonly payload: string | Uint8Array;
  readonly qos: 0 | 1;
  readonly retain: boolean;
}
