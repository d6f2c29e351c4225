/** Knows which message a status report is about, until the report of its last part. */
import type { StatusReport } from './pdu-status-report.js';

/** All parts of one text. */
export interface Watched {
  readonly key: string;
  readonly to: string;
  readonly total: number;
}

interface Part {
  readonly of: Watched;
  readonly number: number;
}

export interface Settled {
  readonly key: string;
  readonly at: number | undefined;
  readonly ok: boolean;
}

/** Last digits that two ways of writing a number share, whatever comes before: common practice, no source. */
const COMMON_DIGITS = 7;

const digitsOf = (number: string): string => number.replace(/\D/g, '').slice(-COMMON_DIGITS);

export class DeliveryWatch {
  /** By TP-Message-Reference, which counts to 255 and begins anew: an older message under it is forgotten. */
  readonly #parts = new Map<number, Part>();
  /** Numbers of the parts that have come. */
  readonly #delivered = new WeakMap<Watched, Set<number>>();

  /** Call when the network has accepted a part. */
  add(of: Watched, number: number, reference: number): void {
    this.#parts.set(reference, { of, number });
  }

  /**
   * Takes a report in.
   *
   * @returns what is now certain: delivered when every part is, failed as soon as one is; undefined else
   */
  report({ reference, recipient, outcome, dischargedAt }: StatusReport): Settled | undefined {
    const part = this.#parts.get(reference);
    if (!part || outcome === 'still-trying' || digitsOf(recipient) !== digitsOf(part.of.to)) return undefined;
    this.#parts.delete(reference);
    const { key, total } = part.of;
    if (outcome === 'forwarded') return undefined;
    if (outcome === 'failed') {
      for (const [other, { of }] of this.#parts) if (of === part.of) this.#parts.delete(other);
      return { key, at: dischargedAt, ok: false };
    }
    const delivered = this.#delivered.get(part.of) ?? new Set<number>();
    this.#delivered.set(part.of, delivered.add(part.number));
    return delivered.size === total ? { key, at: dischargedAt, ok: true } : undefined;
  }
}
