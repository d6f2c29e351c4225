/** The watch over a bed's warmth: what a sound bed would show, what departs from it, and where it comes from. It thinks every six hours. */
import type { Bed } from '../../model/site.js';
import { HOUR_ms } from '../../model/time.js';
import { Bank, type LikelySource, restoreOnsets, SIGNALS, saveOnsets } from './bank.js';
import { heldBeside } from './beside-source.js';
import { Expected, type Step } from './expected.js';
import { type GatheredStep, Gathering } from './gathering.js';
import type { HeatHour, HeatSaved, ProbeExpectation, ProbeFinding, Source } from './heat-types.js';
import { product } from './kalman.js';
import { isLeap } from './leap.js';
import { restoreLikely, saveLikely } from './likely.js';
import { type BedModel, modelOf } from './model.js';
import { nearestReading, OpenSources } from './open-sources.js';
import type { Point } from './responses.js';
import { Scatter } from './scatter.js';
import { Scales } from './search.js';
import { SHAPES } from './sources.js';
import { Suspicion } from './suspicion.js';
import { type Rates, verdictOn } from './verdict.js';
import { type Evidence, weighAll } from './weighing.js';

const STEP_hours = 6;
/** Steps after filling or handling from which on a source may have begun, and from which on one is told. */
const AT_REST_steps = 10;
const TOLD_LATER_steps = 10;
/** Steps before a jump within which nothing that began is believed: it would explain the jump. */
const BESIDE_JUMP_steps = 4;
/** Steps for which warmth is not believed once water has come in. */
const WET_steps = 5 * 4;
/** Ratio of a source from which on what it adds is not taken for scatter. Judgement. */
const LIKELY = 10;
/** Of a new or handled bed: how much more readings scatter, and steps in which that falls to 37 %. Without a shade probe. Judgement. */
const NEW_SCATTER = 3;
const NEW_steps = 6 * 4;
export const BLIND_SCATTER = 2.5;
/** What the model leaves out, °C, in the band. */
const LEFT_OUT_C = 0.05;

export class HeatWatch {
  readonly #bed: Pick<Bed, 'kind' | 'steps' | 'roots'>;
  readonly points: readonly Point[];
  readonly #model: BedModel;
  readonly #scales: Scales;
  readonly #rates: Rates;
  readonly #bank: Bank;
  readonly #gathering: Gathering;
  readonly #suspicion: Suspicion;
  readonly #open: OpenSources;
  #expected: Expected | undefined;
  #step: number | null = null;
  #begun: number | null = null;
  #restFrom = 0;
  #wetUntil = 0;
  readonly #scatter: Scatter;
  #lastRatio = 0;
  #likely: LikelySource | undefined;
  #asked: number | null = null;
  #expectations: (ProbeExpectation | null)[];

  constructor(bed: Pick<Bed, 'kind' | 'steps' | 'roots'>, points: readonly Point[], rates: Rates) {
    this.#bed = bed;
    this.points = points;
    this.#rates = rates;
    this.#model = modelOf(bed, points);
    this.#scales = new Scales(points.length);
    this.#bank = new Bank(this.#model.sources.shapes, points.length, this.#model.stateSize);
    this.#gathering = new Gathering(points.length);
    this.#suspicion = new Suspicion(points.length);
    this.#open = new OpenSources(this.#model, this.#bank, this.#scales);
    this.#scatter = new Scatter(points.length);
    this.#expectations = points.map(() => null);
  }

  /** The sources that are told of, the oldest first. */
  get sources(): readonly Source[] {
    return this.#open.sources;
  }

  get faults(): readonly ProbeFinding[] {
    return this.#suspicion.findings;
  }

  /** End of the step in which the bed seems to have been handled without a word, ms; null where it was not. */
  get asked(): number | null {
    return this.#asked;
  }

  get expectations(): readonly (ProbeExpectation | null)[] {
    return this.#expectations;
  }

  get learning(): boolean {
    return this.#step === null || !this.#mayTell(this.#step);
  }

  get blind(): boolean {
    return this.#expected?.blind ?? true;
  }

  /** Somebody wrote something down. */
  told(): void {
    this.#asked = null;
  }

  takeHour(hour: HeatHour): void {
    if (hour.opened) this.#answered(hour.rotLeft);
    this.#gathering.take(hour);
    const hours = hour.hour / HOUR_ms;
    const step = Math.floor(hours / STEP_hours);
    if (hour.wet) this.#wetUntil = step + WET_steps;
    if (hours % STEP_hours !== STEP_hours - 1) return;
    this.#think(step, hour.hour + HOUR_ms, this.#gathering.close());
  }

  /** Somebody looked: unless rot was left there, an alarm that was looked into is over, and what lies in the bed shows anew. */
  #answered(rotLeft: boolean): void {
    this.#asked = null;
    if (rotLeft && this.sources.length > 0) return;
    this.#open.forget();
    this.#suspicion.forgetHolding();
    this.#bank.onsets = [];
  }

  #mayTell(step: number): boolean {
    return step >= this.#restFrom + TOLD_LATER_steps;
  }

  #think(step: number, end: number, gathered: GatheredStep): void {
    this.#step = step;
    const { measured, shade_C } = gathered;
    const present = measured.filter((value) => value !== undefined).sort((one, other) => one - other);
    const bed_C = present[Math.floor(present.length / 2)];
    if (!this.#expected) {
      if (bed_C === undefined) return;
      this.#expected = new Expected(this.#bed, this.points, this.#model.responses, shade_C ?? bed_C, bed_C);
      this.#begun = step;
      this.#restFrom = step + AT_REST_steps;
    }
    this.#handle(step, end, gathered);
    for (const at of this.#expected.advance(step, bed_C, shade_C)) this.#bank.forget(at);
    const scatter = this.#scatter.middle / (this.blind ? BLIND_SCATTER : 1);
    this.#bank.turn(step, this.#pinned, scatter);
    const taken = this.#expected.measure(step, measured);
    this.#gather(step, taken);
    this.#suspicion.noteLevels(step, end, measured);
    this.#judge(step, end, gathered.opened);
    this.#expect(taken, end);
    if (step % 4 === 3) this.#expected.relinearize();
  }

  #gather(step: number, { gain, used }: Step): void {
    if (!gain) return;
    const weights = this.#scatter.weights(used, this.#unrest(step));
    const added = this.#bank.take(step, gain, used, weights, this.#likely);
    this.#scatter.take(
      used,
      gain.whitened.map((value, row) => value - (added[row] as number)),
    );
  }

  /** A jump of one probe is the probe's; of several, or where somebody said so, the bed was handled. */
  #handle(step: number, end: number, { jumped, broken, opened }: GatheredStep): void {
    const expected = this.#expected as Expected;
    if (opened || jumped.size >= 2) {
      if (step > (this.#begun ?? step) + BESIDE_JUMP_steps) this.#handled(step, end, opened);
      return;
    }
    for (const probe of broken) if (this.#suspicion.distrust(probe, step)) expected.unsettle(probe);
    if (jumped.size > 0) this.#keepOnsets((onset) => Math.abs(onset - step) > BESIDE_JUMP_steps);
    const justHandled = step - (this.#restFrom - AT_REST_steps) <= 1;
    for (const probe of jumped) {
      if (!justHandled) this.#suspicion.noteJump(probe, step);
      this.#suspicion.distrust(probe, step);
      expected.unsettle(probe);
    }
  }

  get #pinned(): number[] {
    return this.sources.map(({ onsetStep }) => onsetStep);
  }

  #keepOnsets(isKept: (step: number) => boolean): void {
    const pinned = this.#pinned;
    this.#bank.onsets = this.#bank.onsets.filter(({ step }) => pinned.includes(step) || isKept(step));
  }

  /** The bed was opened, filled up or dug in: it is learned anew, and who did it is asked unless it was told. */
  #handled(step: number, end: number, opened: boolean): void {
    for (const at of (this.#expected as Expected).disturb()) this.#bank.forget(at);
    this.#keepOnsets(() => false);
    this.#restFrom = step + AT_REST_steps;
    this.#lastRatio = 0;
    if (!opened && step >= this.#wetUntil) this.#asked = end;
  }

  /** By how much readings scatter more than they will later; most while a bed is new. */
  #unrest(step: number): number {
    const age = (step - (this.#restFrom - AT_REST_steps)) / NEW_steps;
    const usual = 1 + NEW_SCATTER * Math.exp(-age);
    return this.blind ? usual * BLIND_SCATTER : usual;
  }

  #judge(step: number, end: number, opened: boolean): void {
    // A bed that is to be unpacked is looked at twice a day.
    if (this.sources.some(({ action }) => action === 'unpack') && step % 2 !== 1) return;
    const restFrom = this.#restFrom;
    const faultsFrom = this.#open.othersFrom;
    const notBefore = Math.max(restFrom, faultsFrom);
    const isDistrusted = (probe: number, at: number): boolean => this.#suspicion.isDistrusted(probe, at);
    const explained = this.#open.explained;
    const evidence = weighAll({
      ...{ bank: this.#bank, scales: this.#scales, readings: this.#model.spread },
      ...{ step, notBefore, faultsFrom, explained, isDistrusted },
    });
    this.#likely = evidence.best && evidence.best.ratio > LIKELY ? evidence.best : undefined;
    const dry = step >= this.#wetUntil;
    if (this.#leapt(evidence) && dry) {
      this.#handled(step, end, opened);
      return;
    }
    // Wet sand is another sand: what its probes show then is no fault of theirs.
    const faulty = evidence.fault && !explained.has(evidence.fault.probe);
    this.#suspicion.judge(evidence, this.#mayTell(step) && dry && faulty !== false, end);
    const verdict =
      this.#mayTell(step) && dry
        ? verdictOn({
            ...{ evidence, blind: this.blind, rates: this.#rates, step },
            isUnsound: (probe, at) => this.#suspicion.isUnsound(probe, at),
            isDoubted: (probe, at) => this.#suspicion.isDoubted(probe, at),
          })
        : null;
    this.#open.settle({ verdict, evidence, step, blind: this.blind, end, restFrom });
  }

  /** Evidence for a source grows from step to step; where it leaps out of nothing, somebody has handled the sand. */
  #leapt({ best }: Evidence): boolean {
    const before = this.#lastRatio;
    this.#lastRatio = best?.ratio ?? 0;
    return !this.#open.suspected && isLeap(before, this.#lastRatio);
  }

  /** What a sound bed would show after the step: what an open source left in the state is taken out again. */
  #expect({ rows, bases }: Step, end: number): void {
    const { state } = this.#expected as Expected;
    const sound = state.x.slice();
    for (const source of this.sources) this.#takeOut(source, sound);
    const now = rows.map((row, probe) => ({
      expected_C: (bases[probe] as number) + product(row, sound),
      band_C: 2 * Math.sqrt(state.varianceOf(row) + LEFT_OUT_C ** 2),
    }));
    const touched = rows.map((row) => Math.abs(product(row, state.x) - product(row, sound)));
    const isOld = this.sources.some(({ since }) => since < end);
    this.#expectations = isOld ? heldBeside(now, this.#expectations, touched) : now;
  }

  #takeOut(source: Source, state: Float64Array): void {
    const onset = this.#bank.onsets.find((one) => one.step === source.onsetStep);
    if (!onset) return;
    const reading = nearestReading(this.#model.readings, source);
    const { ratio, power } = this.#scales.weigh(reading, onset);
    reading.weights.forEach((weight, at) => {
      const probe = reading.probes[Math.floor(at / SHAPES)] as number;
      const factor = ratio > 0 ? -power * weight : 0;
      this.#bank.addTo(state, onset, probe * SIGNALS + (at % SHAPES), factor);
    });
  }

  save(): HeatSaved {
    return {
      likely: saveLikely(this.#likely, this.#model.spread),
      ...{ step: this.#step, begun: this.#begun, restFrom: this.#restFrom, wetUntil: this.#wetUntil },
      ...{ scatter: this.#scatter.save(), lastRatio: this.#lastRatio, asked: this.#asked },
      ...{ expectations: this.#expectations, gathering: this.#gathering.save() },
      ...{ suspicion: this.#suspicion.save(), sources: this.#open.save() },
      ...{ expected: this.#expected?.save() ?? null, onsets: saveOnsets(this.#bank) },
    };
  }

  restore(saved: HeatSaved): void {
    this.#step = saved.step;
    this.#begun = saved.begun;
    this.#restFrom = saved.restFrom;
    this.#wetUntil = saved.wetUntil;
    this.#scatter.restore(saved.scatter);
    this.#lastRatio = saved.lastRatio;
    this.#asked = saved.asked;
    this.#expectations = [...saved.expectations];
    this.#gathering.restore(saved.gathering);
    this.#suspicion.restore(saved.suspicion);
    this.#open.restore(saved.sources);
    restoreOnsets(this.#bank, saved.onsets);
    this.#likely = restoreLikely(saved.likely, this.#bank, this.#model.spread);
    if (!saved.expected) return;
    const { reference_C } = saved.expected;
    this.#expected = new Expected(this.#bed, this.points, this.#model.responses, reference_C, reference_C);
    this.#expected.restore(saved.expected);
  }
}
