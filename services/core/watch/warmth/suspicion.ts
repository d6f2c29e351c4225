/** Which probes are not to be believed alone, and which must be looked at. */
import { HOUR_ms } from '../../model/time.js';
import type { ProbeFinding } from './heat-types.js';
import { faultIn } from './verdict.js';
import type { Evidence } from './weighing.js';

/** Steps for which a probe that jumped or was broken is not believed alone. */
const DISTRUST_steps = 14 * 4;
/** The same after a fault of it was told: what no longer stands out has been learned, and goes on. Judgement. */
const FAULTY_steps = 28 * 4;
const STEP_ms = 6 * HOUR_ms;
/** Steps in a row in which a fault must explain best before it is told, and in which it no longer does before it is over. */
const HOLDS_steps = 4;
const OVER_steps = 20;
/** Steps after a jump at which a probe's level is held against that before; by how much it is another, °C; told so long. */
const STEPPED_after = 4;
const STEPPED_C = 0.6;
const STEPPED_for_ms = 14 * 24 * HOUR_ms;

interface Before {
  readonly probe: number;
  readonly level_C: number;
  readonly step: number;
}

type Suspect = ProbeFinding & { readonly gone: number };

export interface SuspicionSaved {
  readonly distrusted: readonly number[];
  readonly doubted: readonly number[];
  readonly suspects: readonly Suspect[];
  readonly stepped: readonly ProbeFinding[];
  readonly before: readonly Before[];
  readonly levels: readonly (number | null)[];
  readonly holding: { readonly probe: number; readonly steps: number };
}

export class Suspicion {
  /** By probe: the step up to which it is not believed after it jumped or was broken; after a fault of it was told. */
  #distrusted: number[];
  #doubted: number[];
  #suspects: Suspect[] = [];
  #stepped: ProbeFinding[] = [];
  #before: Before[] = [];
  #levels: (number | null)[];
  #holding = { probe: -1, steps: 0 };

  constructor(probes: number) {
    this.#distrusted = Array.from({ length: probes }, () => 0);
    this.#doubted = Array.from({ length: probes }, () => 0);
    this.#levels = Array.from({ length: probes }, () => null);
  }

  /** Drifts, and steps that were seen as such: a small step alone may be the bed's own. */
  get findings(): readonly ProbeFinding[] {
    return [...this.#suspects.filter(({ fault }) => fault === 'drift'), ...this.#stepped];
  }

  isDistrusted(probe: number, step: number): boolean {
    return this.isUnsound(probe, step) || this.isDoubted(probe, step);
  }

  /** It jumped or was broken: nothing that it shows alone is believed. */
  isUnsound(probe: number, step: number): boolean {
    return (this.#distrusted[probe] as number) > step;
  }

  /** A fault explained best what it showed: a source that explains it far better is believed again. */
  isDoubted(probe: number, step: number): boolean {
    return (this.#doubted[probe] as number) > step || this.#suspects.some((one) => one.probe === probe);
  }

  /** @returns whether it was believed until now */
  distrust(probe: number, step: number): boolean {
    const believed = (this.#distrusted[probe] as number) < step + DISTRUST_steps - 1;
    this.#distrusted[probe] = step + DISTRUST_steps;
    return believed;
  }

  noteJump(probe: number, step: number): void {
    const level_C = this.#levels[probe];
    const known = this.#before.some((one) => one.probe === probe);
    if (typeof level_C === 'number' && !known) this.#before.push({ probe, level_C, step });
  }

  /** A probe that jumped, and a day later stands elsewhere than before, was moved or has become another. */
  noteLevels(step: number, end: number, measured: readonly (number | undefined)[]): void {
    for (const { probe, level_C, step: at } of this.#before) {
      const now = measured[probe];
      if (step - at !== STEPPED_after || now === undefined || !(Math.abs(now - level_C) > STEPPED_C))
        continue;
      this.#stepped = this.#stepped.filter((one) => one.probe !== probe);
      this.#stepped.push({ probe, fault: 'shift', size: now - level_C, since: end });
    }
    this.#before = this.#before.filter(({ step: at }) => step - at < STEPPED_after);
    this.#stepped = this.#stepped.filter(({ since }) => end - since < STEPPED_for_ms);
    measured.forEach((level, probe) => {
      if (level !== undefined) this.#levels[probe] = level;
    });
  }

  judge(evidence: Evidence, atRest: boolean, end: number): void {
    const fault = atRest ? faultIn(evidence) : undefined;
    const same = fault !== undefined && fault.probe === this.#holding.probe;
    this.#holding = { probe: fault?.probe ?? -1, steps: fault ? (same ? this.#holding.steps + 1 : 1) : 0 };
    const suspects = this.#suspects.map((found) => ({
      ...found,
      gone: fault?.probe === found.probe ? 0 : found.gone + 1,
    }));
    this.#suspects = suspects.filter(({ gone }) => gone < OVER_steps);
    for (const { probe, gone } of suspects)
      if (gone >= OVER_steps)
        this.#doubted[probe] = Math.max(this.#doubted[probe] as number, end / STEP_ms + FAULTY_steps);
    if (!fault || this.#holding.steps < HOLDS_steps) return;
    if (this.#suspects.some(({ probe }) => probe === fault.probe)) return;
    this.#suspects.push({ probe: fault.probe, fault: fault.fault, size: fault.size, since: end, gone: 0 });
  }

  forgetHolding(): void {
    this.#holding = { probe: -1, steps: 0 };
  }

  save(): SuspicionSaved {
    return {
      ...{ distrusted: this.#distrusted, doubted: this.#doubted, suspects: this.#suspects },
      ...{ stepped: this.#stepped, before: this.#before, levels: this.#levels, holding: this.#holding },
    };
  }

  restore(saved: SuspicionSaved): void {
    this.#distrusted = [...saved.distrusted];
    this.#doubted = [...saved.doubted];
    this.#suspects = [...saved.suspects];
    this.#stepped = [...saved.stepped];
    this.#before = [...saved.before];
    this.#levels = [...saved.levels];
    this.#holding = { ...saved.holding };
  }
}
