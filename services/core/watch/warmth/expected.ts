/**
 * What a sound bed's probes would show: an extended Kalman filter over what is not known of the bed, in steps of six
 * hours, about the responses of its block of sand and ground.
 */
import { blocksOf, volume_L } from '../../model/bed.js';
import type { Bed } from '../../model/site.js';
import { cover_cm } from './cover.js';
import { STEP_h } from './curve.js';
import { History } from './history.js';
import { type Gain, update } from './kalman.js';
import { GLOBAL, GLOBALS, Layout } from './layout.js';
import { ROOTS_kg_m3 } from './nominal.js';
import { blindWave_C, HANDLED, noise_C, PRIORS, PROBE, UNSETTLED } from './priors.js';
import type { Point, Responses } from './responses.js';
import { type Disturbance, fillRow } from './rows.js';
import { StateMatrix } from './state-matrix.js';
import { SurfaceDays } from './surface-days.js';
import { convolve, type Taps, tapsOf } from './taps.js';

/** The mean of each probe in a step, °C; undefined where it measured too little. */
export type Measured = readonly (number | undefined)[];

export interface Step {
  /** Undefined where nothing was measured. */
  readonly gain: Gain | undefined;
  /** By used row: which probe. */
  readonly used: readonly number[];
  /** Rows of all probes after the step, and what they are added to, °C. */
  readonly rows: readonly Float64Array[];
  readonly bases: readonly number[];
}

/** How far the learned speed of conduction may be from the one that all else is linear about. */
const LINEAR_WITHIN = 0.05;
/** Of the nominal speed, between very dry sand and wet. Judgement. */
const SPEEDS = { least: 0.5, most: 4 } as const;
/** Steps without a shade probe after which the bed is judged without. */
const BLIND_AFTER_steps = 4;
const DISTURBANCES = 8;

export interface ExpectedSaved {
  readonly reference_C: number;
  readonly speed: number;
  readonly blind: boolean;
  readonly withoutShade: number;
  readonly unrest_C: number;
  readonly surfaceVariance: number;
  readonly disturbedAt: { upper: number; lower: number };
  readonly past: readonly Disturbance[];
  readonly recent: readonly (readonly number[])[];
  readonly history: ReturnType<History['save']>;
  readonly x: Float64Array;
  readonly P: Float64Array;
}

export class Expected {
  readonly layout: Layout;
  readonly points: readonly Point[];
  readonly responses: Responses;
  readonly state: StateMatrix;
  readonly history: History;
  readonly #reference_C: number;
  readonly #cover_cm: readonly number[];
  #taps: Taps;
  #blind = false;
  #withoutShade = 0;
  // A bed that was just filled is as one that was just handled: taken at its word the first days bend what is learned for good.
  #unrest_C: number = HANDLED.noise_C;
  readonly #days: SurfaceDays;
  #disturbedAt = { upper: 0, lower: 0 };
  #past: Disturbance[] = [];
  #recent: number[][];

  /**
   * @param reference_C about how warm all of it is at the beginning: the shade, or the sand itself
   * @param sand_C of the sand at the beginning
   */
  constructor(
    bed: Pick<Bed, 'kind' | 'steps' | 'roots'>,
    points: readonly Point[],
    responses: Responses,
    reference_C: number,
    sand_C: number,
  ) {
    this.points = points;
    this.responses = responses;
    this.layout = new Layout(points.length);
    this.#reference_C = reference_C;
    this.#cover_cm = points.map((point) => cover_cm(bed, point));
    this.#taps = tapsOf(responses, points.length, 1);
    const { mass_kg } = bed.roots ?? {};
    const volume_m3 = volume_L(blocksOf(bed.steps)) / 1000;
    this.history = new History(mass_kg === undefined ? ROOTS_kg_m3 : mass_kg / volume_m3, reference_C);
    this.state = new StateMatrix(this.layout.size);
    this.#days = new SurfaceDays(this.layout, this.state);
    this.#recent = points.map(() => []);
    for (const name of GLOBALS) this.state.set(GLOBAL[name], PRIORS[name].mean, PRIORS[name].deviation);
    for (const half of ['upper', 'lower'] as const)
      this.state.set(GLOBAL[half], sand_C - reference_C, PRIORS[half].deviation);
    points.forEach((_point, probe) => {
      this.#beginProbe(probe);
    });
    this.#beginWaves();
  }

  #beginProbe(probe: number): void {
    this.state.set(this.layout.probe(probe, 'offset'), 0, PROBE.offset.deviation);
    this.state.set(this.layout.probe(probe, 'roots'), 0, PROBE.roots.deviation);
    for (const axis of ['x', 'y', 'depth'] as const)
      this.state.set(this.layout.probe(probe, axis), 0, PROBE.place.deviation);
  }

  /** @returns the unknowns that now stand for something else */
  #beginWaves(): number[] {
    return this.#cover_cm.flatMap((cover, probe) => {
      const waves = [this.layout.probe(probe, 'wave'), this.layout.probe(probe, 'quadrature')];
      for (const at of waves) this.state.set(at, 0, this.#blind ? blindWave_C(cover) : PROBE.wave.deviation);
      return waves;
    });
  }

  /** Whether the bed is judged without a shade probe. */
  get blind(): boolean {
    return this.#blind;
  }

  /**
   * Sand was moved or put in warmer or cooler: what was known of its warmth and of where probes lie is loosened.
   *
   * @returns the unknowns that now stand for something else
   */
  disturb(): number[] {
    for (const half of ['upper', 'lower'] as const) {
      const step = this.#disturbedAt[half];
      this.#past.push({ half, size: this.state.mean(GLOBAL[half]), step });
      this.#disturbedAt[half] = this.history.count;
      this.state.set(GLOBAL[half], 0, HANDLED.sand_C);
    }
    this.#past.splice(0, this.#past.length - DISTURBANCES);
    this.state.widen(GLOBAL.sunk, HANDLED.sunk_cm);
    this.points.forEach((_point, probe) => {
      this.#loosen(probe, HANDLED.offset_C, HANDLED.place_cm, HANDLED.roots);
    });
    this.#unrest_C = HANDLED.noise_C;
    return [GLOBAL.upper, GLOBAL.lower];
  }

  /** A probe was moved, or became another: what it showed before hardly binds what it shows from now on. */
  unsettle(probe: number): void {
    this.#loosen(probe, UNSETTLED.offset_C, UNSETTLED.place_cm, UNSETTLED.roots);
  }

  #loosen(probe: number, offset_C: number, place_cm: number, roots: number): void {
    this.state.widen(this.layout.probe(probe, 'offset'), offset_C);
    this.state.widen(this.layout.probe(probe, 'roots'), roots);
    for (const axis of ['x', 'y', 'depth'] as const)
      this.state.widen(this.layout.probe(probe, axis), place_cm);
  }

  /**
   * Goes on to a step, before anything measured in it is taken.
   *
   * @param step counted from any midnight in steps of six hours
   * @param bed_C of the sand in the step, where anything was measured
   * @param shade_C mean of the shade in the step
   * @returns the unknowns that now stand for something else
   */
  advance(step: number, bed_C: number | undefined, shade_C: number | undefined): number[] {
    const { history, state } = this;
    const renewed: number[] = [];
    this.#withoutShade = shade_C === undefined ? this.#withoutShade + 1 : 0;
    const lost = this.#withoutShade >= BLIND_AFTER_steps || (history.count === 0 && shade_C === undefined);
    const blind = shade_C === undefined && (lost || this.#blind);
    if (blind !== this.#blind) {
      this.#blind = blind;
      renewed.push(...this.#beginWaves());
    }
    const day = Math.floor(step / 4);
    const unsure = shade_C === undefined;
    if (step % 4 === 0 || history.count === 0) renewed.push(this.#days.begin(day, history.count, unsure));
    if (this.#withoutShade === 1) this.#days.doubt(day);
    const air = shade_C === undefined ? history.usualAir() : shade_C - this.#reference_C;
    history.add(air, bed_C === undefined ? (history.bed.at(-1) ?? 0) : bed_C - this.#reference_C);
    this.#unrest_C *= HANDLED.calmsBy;
    const root = Math.sqrt(STEP_h / 24);
    for (const name of GLOBALS) state.widen(GLOBAL[name], PRIORS[name].daily * root);
    this.#cover_cm.forEach((cover, probe) => {
      this.#wander(probe, cover, root);
    });
    return renewed;
  }

  #wander(probe: number, cover: number, root: number): void {
    const { layout, state } = this;
    state.widen(layout.probe(probe, 'offset'), PROBE.offset.daily * root * (this.#blind ? 2 : 1));
    state.widen(layout.probe(probe, 'roots'), PROBE.roots.daily * root);
    const wave = (this.#blind ? blindWave_C(cover) / 10 : PROBE.wave.daily) * root;
    state.widen(layout.probe(probe, 'wave'), wave);
    state.widen(layout.probe(probe, 'quadrature'), wave);
  }

  /** Takes what was measured in the step to which it advanced. */
  measure(step: number, measured: Measured): Step {
    const rows: Float64Array[] = [];
    const bases: number[] = [];
    const used: number[] = [];
    this.points.forEach((_point, probe) => {
      const row = new Float64Array(this.layout.size);
      bases.push(this.#reference_C + this.#row(step, probe, row));
      rows.push(row);
      if (measured[probe] !== undefined) used.push(probe);
    });
    const noise = used.map((probe) => {
      return noise_C(this.#cover_cm[probe] as number, this.#withoutShade > 0) ** 2 + this.#unrest_C ** 2;
    });
    const gain =
      used.length === 0
        ? undefined
        : update(
            this.state.x,
            this.state.P,
            used.map((probe) => rows[probe] as Float64Array),
            used.map((probe) => (measured[probe] as number) - (bases[probe] as number)),
            noise,
          );
    return { gain, used, rows, bases };
  }

  #row(step: number, probe: number, row: Float64Array): number {
    const { layout, responses, history } = this;
    const recent = this.#recent[probe] as number[];
    recent.push(convolve((this.#taps.air[probe] as Taps['air'][number]).value, history.air));
    if (recent.length > 5) recent.shift();
    return fillRow(
      {
        ...{ layout, responses, history, taps: this.#taps, x: this.state.x, step, count: history.count - 1 },
        ...{ disturbedAt: this.#disturbedAt, past: this.#past, blind: this.#blind, recent },
      },
      probe,
      row,
    );
  }

  /** Makes what was learned of the speed of conduction the point about which the rest is linear. */
  relinearize(): void {
    const learned = this.state.mean(GLOBAL.faster);
    if (!(Math.abs(learned) > LINEAR_WITHIN)) return;
    // Faster conduction makes less of the roots' warmth: their own share takes that up.
    this.state.x[GLOBAL.roots] = this.state.mean(GLOBAL.roots) - learned;
    this.state.x[GLOBAL.faster] = 0;
    const speed = Math.min(SPEEDS.most, Math.max(SPEEDS.least, this.#taps.speed * Math.exp(learned)));
    if (speed !== this.#taps.speed) this.#taps = tapsOf(this.responses, this.points.length, speed);
  }

  save(): ExpectedSaved {
    return {
      ...{ reference_C: this.#reference_C, speed: this.#taps.speed, blind: this.#blind },
      ...{ withoutShade: this.#withoutShade, unrest_C: this.#unrest_C, surfaceVariance: this.#days.variance },
      ...{ disturbedAt: this.#disturbedAt, past: this.#past, recent: this.#recent },
      ...{ history: this.history.save(), x: this.state.x, P: this.state.packed() },
    };
  }

  restore(saved: ExpectedSaved): void {
    this.#blind = saved.blind;
    this.#withoutShade = saved.withoutShade;
    this.#unrest_C = saved.unrest_C;
    this.#days.variance = saved.surfaceVariance;
    this.#disturbedAt = { ...saved.disturbedAt };
    this.#past = [...saved.past];
    this.#recent = saved.recent.map((values) => [...values]);
    this.history.restore(saved.history);
    this.state.unpack(saved.x, saved.P);
    this.#taps = tapsOf(this.responses, this.points.length, saved.speed);
  }
}
