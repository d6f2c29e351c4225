/** The source that is told of, from its first mention to its end. */
import { HOUR_ms } from '../../model/time.js';
import type { Bank } from './bank.js';
import type { Source } from './heat-types.js';
import { locate } from './locate.js';
import type { BedModel } from './model.js';
import type { Reading, Scales } from './search.js';
import { SHAPES } from './sources.js';
import type { Verdict } from './verdict.js';
import type { Candidate } from './weighing.js';

const STEP_ms = 6 * HOUR_ms;
/** Steps in a row in which a verdict must hold before it is told. */
const HOLDS_steps = { unpack: 2, check: 4 } as const;
/** Looks in which an open alarm is no longer borne out before it is over: one a step, of an unpack one a day. */
const OVER_looks = { unpack: 5, check: 20 } as const;
/** What is left of the ratio of a source that has ended. */
const BORNE_OUT = 6;
/** Steps after an alarm in which its place is made better, once a day. */
const REFINED_steps = 10 * 4;
/** A place is looked for within so many cm of the likeliest, and with beginnings within so many steps of its. */
const NEAR_cm = 45;
const NEAR_steps = 12;

export interface OpenSourceSaved {
  readonly held: { readonly unpack: number; readonly check: number };
  readonly gone: number;
  readonly source: Source | null;
}

export interface SettleInput {
  readonly verdict: Verdict;
  readonly best: Candidate | undefined;
  /** End of the step, ms. */
  readonly end: number;
  readonly dispersion: number;
  /** Beginnings before this are not believed. */
  readonly restFrom: number;
}

export class OpenSource {
  readonly #model: BedModel;
  readonly #bank: Bank;
  readonly #scales: Scales;
  #held = { unpack: 0, check: 0 };
  #gone = 0;
  #source: Source | null = null;

  constructor(model: BedModel, bank: Bank, scales: Scales) {
    this.#model = model;
    this.#bank = bank;
    this.#scales = scales;
  }

  get source(): Source | null {
    return this.#source;
  }

  /** Whether anything is told of, or about to be. */
  get suspected(): boolean {
    return this.#source !== null || this.#held.check > 0;
  }

  forget(): void {
    this.#source = null;
    this.#held = { unpack: 0, check: 0 };
  }

  settle(input: SettleInput): void {
    const { verdict, best, end, dispersion } = input;
    this.#held = {
      unpack: verdict === 'unpack' ? this.#held.unpack + 1 : 0,
      check: verdict ? this.#held.check + 1 : 0,
    };
    const open = this.#source;
    const told = this.#toldNow();
    if (told && best && (!open || (open.action === 'check' && told === 'unpack'))) {
      this.#gone = 0;
      this.#place(told, end, best.onset.step, best.reading, input);
      return;
    }
    if (!open) return;
    const young = (end - open.since) / STEP_ms <= REFINED_steps;
    if (open.action === 'unpack' && verdict && best && young)
      this.#place(open.action, open.since, open.onsetStep, best.reading, input);
    this.#gone = verdict ? 0 : this.#gone + 1;
    if (this.#gone >= OVER_looks[open.action] && !this.#lasts(open, dispersion)) this.#source = null;
  }

  #toldNow(): Source['action'] | null {
    if (this.#held.unpack >= HOLDS_steps.unpack) return 'unpack';
    return this.#held.check >= HOLDS_steps.check ? 'check' : null;
  }

  /** Whether what was told is still borne out by all that came since. */
  #lasts({ onsetStep, action }: Source, dispersion: number): boolean {
    const onset = this.#bank.onsets.find((one) => one.step === onsetStep);
    if (action !== 'unpack' || !onset) return false;
    return this.#model.spread.some(
      (reading) => this.#scales.weigh(reading, onset, dispersion).ratio > BORNE_OUT,
    );
  }

  #place(
    action: Source['action'],
    since: number,
    onsetStep: number,
    { place: near }: Reading,
    { dispersion, restFrom }: SettleInput,
  ): void {
    const close = this.#model.readings.filter(
      ({ place }) => Math.hypot(place.x - near.x, place.y - near.y, place.depth - near.depth) < NEAR_cm,
    );
    const own = this.#source?.onsetStep;
    const found = locate(
      this.#bank,
      this.#scales,
      close,
      dispersion,
      ({ step }) => Math.abs(step - onsetStep) <= NEAR_steps && (step >= restFrom || step === own),
    );
    if (!found) return;
    const { reading, onset, ...rest } = found;
    this.#source = {
      ...rest,
      ...{ action, since, nearest: reading.nearest, probes: showing(reading) },
      onsetStep: this.#source?.action === action ? onsetStep : onset.step,
    };
  }

  save(): OpenSourceSaved {
    return { held: this.#held, gone: this.#gone, source: this.#source };
  }

  restore(saved: OpenSourceSaved): void {
    this.#held = { ...saved.held };
    this.#gone = saved.gone;
    this.#source = saved.source;
  }
}

/** How many probes a source at a place shows at: where it adds at least a quarter of what it adds at the nearest. */
function showing({ probes, weights }: Reading): number {
  const sizes = [...probes.keys()].map((index) =>
    Math.abs(weights.subarray(index * SHAPES, (index + 1) * SHAPES).reduce((sum, value) => sum + value, 0)),
  );
  const largest = Math.max(...sizes);
  return sizes.filter((size) => size >= largest / 4).length;
}
