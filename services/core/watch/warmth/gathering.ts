/** Six hours of means, gathered hour by hour, with what happened in them. */
import type { HeatHour } from './heat-types.js';
import { type JumpState, newJumps, takeHour } from './jumps.js';

/** Hours of six that a probe must have measured in. */
const LEAST_hours = 3;

type Sum = readonly [sum: number, count: number];

export interface GatheredStep {
  /** By probe, °C. A probe that jumped is left out in this step and the next. */
  readonly measured: readonly (number | undefined)[];
  readonly shade_C: number | undefined;
  readonly jumped: ReadonlySet<number>;
  readonly broken: ReadonlySet<number>;
  readonly opened: boolean;
}

export interface GatheringSaved {
  readonly sums: readonly Sum[];
  readonly shade: Sum;
  readonly jumps: readonly JumpState[];
  readonly jumped: readonly number[];
  readonly jumpedBefore: readonly number[];
  readonly broken: readonly number[];
  readonly opened: boolean;
}

const NONE: Sum = [0, 0];

const add = ([sum, count]: Sum, value: number): Sum => [sum + value, count + 1];

const meanOf = ([sum, count]: Sum): number | undefined => (count >= LEAST_hours ? sum / count : undefined);

export class Gathering {
  #sums: Sum[];
  #shade: Sum = NONE;
  #jumps: JumpState[];
  #jumped = new Set<number>();
  #jumpedBefore = new Set<number>();
  #broken = new Set<number>();
  #opened = false;

  constructor(probes: number) {
    this.#sums = Array.from({ length: probes }, () => NONE);
    this.#jumps = Array.from({ length: probes }, newJumps);
  }

  take({ means, broken, shade_C, opened }: HeatHour): void {
    this.#opened ||= opened;
    means.forEach((mean, probe) => {
      if (broken[probe]) {
        this.#broken.add(probe);
        return;
      }
      if (takeHour(this.#jumps[probe] as JumpState, mean)) this.#jumped.add(probe);
      if (mean !== undefined) this.#sums[probe] = add(this.#sums[probe] as Sum, mean);
    });
    if (shade_C !== undefined) this.#shade = add(this.#shade, shade_C);
  }

  /** What the six hours gave; the next begin. */
  close(): GatheredStep {
    const spoilt = (probe: number): boolean =>
      this.#jumpedBefore.has(probe) || this.#jumped.has(probe) || this.#broken.has(probe);
    const step: GatheredStep = {
      measured: this.#sums.map((sum, probe) => (spoilt(probe) ? undefined : meanOf(sum))),
      shade_C: meanOf(this.#shade),
      jumped: this.#jumped,
      broken: this.#broken,
      opened: this.#opened,
    };
    this.#sums = this.#sums.map(() => NONE);
    this.#shade = NONE;
    this.#jumpedBefore = this.#jumped;
    this.#jumped = new Set();
    this.#broken = new Set();
    this.#opened = false;
    return step;
  }

  save(): GatheringSaved {
    return {
      ...{ sums: this.#sums, shade: this.#shade, jumps: this.#jumps, opened: this.#opened },
      ...{ jumped: [...this.#jumped], jumpedBefore: [...this.#jumpedBefore], broken: [...this.#broken] },
    };
  }

  restore(saved: GatheringSaved): void {
    this.#sums = [...saved.sums];
    this.#shade = saved.shade;
    this.#jumps = saved.jumps.map(({ last_C, usual }) => ({ last_C, usual: [...usual] }));
    this.#jumped = new Set(saved.jumped);
    this.#jumpedBefore = new Set(saved.jumpedBefore);
    this.#broken = new Set(saved.broken);
    this.#opened = saved.opened;
  }
}
