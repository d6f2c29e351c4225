/** The sources that are told of, each from its first mention to its end. */
import { HOUR_ms } from '../../model/time.js';
import type { Bank, Onset } from './bank.js';
import type { Source } from './heat-types.js';
import { type Doubted, type Held, heldOn, NONE_HELD, toldOn } from './holding.js';
import { locate } from './locate.js';
import type { BedModel } from './model.js';
import type { Point } from './responses.js';
import type { Reading, Scales } from './search.js';
import type { Verdict } from './verdict.js';
import type { Candidate } from './weighing.js';

const STEP_ms = 6 * HOUR_ms;
/** Looks in which an open alarm is no longer borne out before it is over: one a step, in a bed that is to be unpacked two a day. */
const OVER_looks = { unpack: 5, check: 20 } as const;
/** What is left of the ratio of a source that has ended. */
const BORNE_OUT = 6;
/** Steps after an alarm in which its place is made better, once in so many: a multiple of those between two looks. Judgement. */
const REFINED_steps = 10 * 4;
const REFINED_every = 4;
/** A place is looked for within so many cm of the likeliest, and with beginnings within so many steps of its. */
const NEAR_cm = 45;
const NEAR_steps = 12;

/** What lies so near to an open source is that source, cm; so many steps after it was told another may have begun. */
const APART_cm = 35;
const LATER_steps = 4;
/** Sources that are told of at once. */
const MOST_SOURCES = 3;

interface Open {
  readonly source: Source;
  /** Looks in which it was not borne out. */
  readonly gone: number;
}

export interface OpenSourcesSaved {
  readonly held: Held;
  readonly open: readonly Open[];
}

export interface SettleInput extends Doubted {
  readonly verdict: Verdict;
  /** End of the step, ms. */
  readonly end: number;
  /** Beginnings before this are not believed. */
  readonly restFrom: number;
}

export class OpenSources {
  readonly #model: BedModel;
  readonly #bank: Bank;
  readonly #scales: Scales;
  #held: Held = NONE_HELD;
  #open: Open[] = [];

  constructor(model: BedModel, bank: Bank, scales: Scales) {
    this.#model = model;
    this.#bank = bank;
    this.#scales = scales;
  }

  /** The sources that are told of, in the order in which they were. */
  get sources(): readonly Source[] {
    return this.#open.map(({ source }) => source);
  }

  /** Whether anything is told of, or about to be. */
  get suspected(): boolean {
    return this.#open.length > 0 || this.#held.check > 0;
  }

  forget(): void {
    this.#open = [];
    this.#held = NONE_HELD;
  }

  /** Probes to which a source that is to be unpacked is nearest. */
  get explained(): ReadonlySet<number> {
    return new Set(this.#open.flatMap(({ source }) => (source.action === 'unpack' ? [source.nearest] : [])));
  }

  /** Beginnings from which on another source may be looked for; what began before is that which was told. */
  get othersFrom(): number {
    const told = this.#open.filter(({ source }) => source.action === 'unpack');
    return Math.max(0, ...told.map(({ source }) => source.since / STEP_ms + LATER_steps));
  }

  settle(input: SettleInput): void {
    const { verdict, evidence, end } = input;
    const { best } = evidence;
    this.#follow(input);
    const own = best && this.#open.find((one) => isSame(one.source, best));
    const counts = verdict !== null && !(own && own.source.action === 'unpack');
    this.#held = heldOn(this.#held, counts ? verdict : null, input);
    const told = toldOn(this.#held, input);
    const isNews = told && best && (own ? told === 'unpack' : true);
    if (isNews && (own || this.#open.length < MOST_SOURCES)) this.#place(own, told, end, best, input);
    this.#open = this.#open
      .map((one) => ({ ...one, gone: this.#isBorneOut(one, input) ? 0 : one.gone + 1 }))
      .filter(({ source, gone }) => gone < OVER_looks[source.action]);
  }

  /** Makes the places of sources that are to be unpacked better. */
  #follow(input: SettleInput): void {
    for (const one of this.#open) {
      const { source } = one;
      const onset = this.#onsetOf(source);
      if (source.action === 'unpack' && onset && isRefined(source, input.end))
        this.#place(one, 'unpack', source.since, { onset, reading: { place: source } }, input);
    }
  }

  #replace(before: Open, now: Open): void {
    this.#open = this.#open.map((one) => (one === before ? now : one));
  }

  #isBorneOut({ source }: Open, { verdict, evidence: { best } }: SettleInput): boolean {
    if (source.action === 'check') return verdict !== null && best !== undefined && isSame(source, best);
    const onset = this.#onsetOf(source);
    if (!onset) return false;
    return this.#model.spread.some((reading) => this.#scales.weigh(reading, onset).ratio > BORNE_OUT);
  }

  #onsetOf({ onsetStep }: Source): Onset | undefined {
    return this.#bank.onsets.find(({ step }) => step === onsetStep);
  }

  /** Places a source that is new, or one that is told of anew. */
  #place(
    before: Open | undefined,
    action: Source['action'],
    since: number,
    { onset, reading: { place: near } }: { onset: Onset; reading: { place: Point } },
    { restFrom }: SettleInput,
  ): void {
    const close = this.#model.inner.filter(({ place }) => distance(place, near) < NEAR_cm);
    const own = before?.source.onsetStep;
    const from = own !== undefined && before?.source.action === action ? own : onset.step;
    const found = locate(
      this.#bank,
      this.#scales,
      close,
      ({ step }) => Math.abs(step - from) <= NEAR_steps && (step >= restFrom || step === own),
    );
    if (!found) return;
    const { reading, onset: likeliest, ...rest } = found;
    const source: Source = {
      ...rest,
      slot: before?.source.slot ?? this.#freeSlot(),
      ...{ action, since, nearest: reading.nearest, probes: showing(reading) },
      onsetStep: before?.source.action === action ? from : likeliest.step,
    };
    const now: Open = { source, gone: before?.source.action === action ? before.gone : 0 };
    if (before) this.#replace(before, now);
    else this.#open = [...this.#open, now];
    this.#held = before ? this.#held : NONE_HELD;
  }

  #freeSlot(): number {
    return (
      [...Array(MOST_SOURCES).keys()].find(
        (slot) => !this.#open.some(({ source }) => source.slot === slot),
      ) ?? 0
    );
  }

  save(): OpenSourcesSaved {
    return { held: this.#held, open: this.#open };
  }

  restore(saved: OpenSourcesSaved): void {
    this.#held = { ...saved.held };
    this.#open = [...saved.open];
  }
}

const distance = (one: Point, other: Point): number =>
  Math.hypot(one.x - other.x, one.y - other.y, one.depth - other.depth);

/** Whether the likeliest source is one that is told of: it began before that was told, or lies near it. */
function isSame(open: Source, { onset, reading }: Candidate): boolean {
  const told = open.since / STEP_ms;
  return onset.step < told + LATER_steps || distance(reading.place, open) < Math.max(APART_cm, open.radius);
}

/** The reading whose place is nearest to a point. */
export function nearestReading(readings: readonly Reading[], to: Point): Reading {
  return readings.reduce((one, other) => (distance(other.place, to) < distance(one.place, to) ? other : one));
}

const isRefined = ({ since }: Source, end: number): boolean =>
  (end - since) / STEP_ms <= REFINED_steps && (end / STEP_ms) % REFINED_every === 0;

/** How many probes a source at a place shows at: where it adds at least a quarter of what it adds at the nearest. */
function showing({ sizes }: Reading): number {
  const largest = Math.max(...sizes);
  return sizes.filter((size) => size >= largest / 4).length;
}
