/** Puts the parts of long messages together: 3GPP TS 23.040 section 9.2.3.24.1. */
import type { Deliver } from './pdu-deliver.js';
import type { Place } from './storage.js';

interface PartHere {
  readonly text: string;
  /** Undefined where it is nowhere but here. */
  readonly place: Place | undefined;
}

interface Group {
  readonly from: string;
  readonly sentAt: number | undefined;
  readonly total: number;
  readonly startedAt: number;
  readonly parts: Map<number, PartHere>;
  /** Further places of parts that are here already. */
  readonly repeats: Place[];
}

export interface Assembled {
  readonly key: string;
  readonly from: string;
  readonly sentAt: number | undefined;
  readonly text: string;
  /** False where parts had not come in time: each gap shows as three dots. */
  readonly complete: boolean;
  /** Where its parts are stored. */
  readonly places: readonly Place[];
}

export interface ReassemblyLimits {
  /** How long parts wait for the others, ms. Own judgement: parts come within minutes or not at all. */
  readonly together_ms: number;
  /** Messages whose parts wait: bounds memory against a sender who never ends one. */
  readonly most: number;
}

export const REASSEMBLY_LIMITS: ReassemblyLimits = { together_ms: 10 * 60_000, most: 50 };

export class Reassembly {
  readonly #limits: ReassemblyLimits;
  readonly #groups = new Map<string, Group>();
  #singles = 0;

  constructor(limits: Partial<ReassemblyLimits> = {}) {
    this.#limits = Object.freeze({ ...REASSEMBLY_LIMITS, ...limits });
  }

  /** Takes a part in. The same part from the same place again changes nothing. */
  add(part: Deliver, place: Place | undefined, now: number): void {
    const { total, number, reference } = part.concatenation ?? { total: 1, number: 1, reference: 0 };
    const single = part.concatenation ? '' : place ? `${place.memory}/${place.index}` : `${this.#singles++}`;
    const base = JSON.stringify([part.from, reference, total, single]);
    const text = part.text ?? '';
    // A reference comes round after 256 messages: another text under the same number is of another message.
    let key = base;
    for (let turn = 1; differs(this.#groups.get(key)?.parts.get(number), text); turn += 1)
      key = `${base}#${turn}`;
    const { from, sentAt } = part;
    const begun: Group = { from, sentAt, total, startedAt: now, parts: new Map(), repeats: [] };
    const group = this.#groups.get(key) ?? begun;
    this.#groups.set(key, group);
    const here = group.parts.get(number);
    if (!here) group.parts.set(number, { text, place });
    else if (place && !samePlace(here.place, place) && !group.repeats.some((one) => samePlace(one, place)))
      group.repeats.push(place);
  }

  /** Messages that are whole, and those that have waited long enough. They stay until `done`. */
  due(now: number): Assembled[] {
    const late = this.#groups.size - this.#limits.most;
    return [...this.#groups].flatMap(([key, group], at) => {
      const complete = group.parts.size === group.total;
      // Set back, a clock would make them wait for ever.
      const age_ms = Math.abs(now - group.startedAt);
      const waits = !complete && age_ms < this.#limits.together_ms && at >= late;
      if (waits) return [];
      if (group.parts.size > 0) return [assemble(key, group, complete)];
      this.#groups.delete(key);
      return [];
    });
  }

  done(key: string): void {
    this.#groups.delete(key);
  }

  /** Forgets what can be read again: another card may be in the modem. How long parts have waited stays known. */
  forgetStored(): void {
    for (const [key, group] of this.#groups) {
      group.repeats.length = 0;
      for (const [number, part] of group.parts) if (part.place) group.parts.delete(number);
      if (group.parts.size === 0 && group.total === 1) this.#groups.delete(key);
    }
  }
}

const differs = (here: PartHere | undefined, text: string): boolean =>
  here !== undefined && here.text !== text;

const samePlace = (one: Place | undefined, other: Place): boolean =>
  one?.memory === other.memory && one.index === other.index;

function assemble(key: string, group: Group, complete: boolean): Assembled {
  const { from, sentAt, total, parts, repeats } = group;
  const texts = Array.from({ length: total }, (_, index) => parts.get(index + 1)?.text ?? '...');
  const places = [...parts.values()].flatMap(({ place }) => (place ? [place] : []));
  return { key, from, sentAt, text: texts.join(''), complete, places: [...places, ...repeats] };
}
