/** One bed under watch, hour by hour. */
import { SandlarderError } from '../errors.js';
import { HOUR_ms } from '../model/time.js';
import { calibrationsDue } from './calibration-due.js';
import { toText } from './checkpoint-text.js';
import { type Standing as Condition, changesOf, type Told } from './conditions.js';
import { dampStandings } from './damp-findings.js';
import { type DampnessState, newDampness, shiftDampness, stepDampness } from './dampness/index.js';
import { dampnessHour } from './dampness-hour.js';
import { askedStanding, probeStanding, sourceStanding } from './heat-findings.js';
import { HourQuality, type JudgedHour, meansOf, type SavedQuality } from './hour-quality.js';
import {
  type HumidityDriftState,
  humidityLookedAfter,
  newHumidityDrift,
  shiftHumidityDrift,
  takeHumidityHour,
} from './humidity-drift.js';
import { lookedAfter, newSandState, type SandState, sandShifted, takeSandHour } from './out-of-sand.js';
import { type PlacedProbe, placeKey, probesIn } from './placements.js';
import type { FaultVerdict } from './quality/index.js';
import { alsoFaulty, qualityStandings } from './quality-findings.js';
import {
  inspectThermalTime,
  nextLook,
  startThermalTime,
  stepThermalTime,
  type ThermalTimeSettings,
  type ThermalTimeState,
  thermalTimeSettings,
} from './thermal-time/index.js';
import { dueStanding, grownStandings } from './time-findings.js';
import type { HeatSaved } from './warmth/heat-types.js';
import { HeatWatch } from './warmth/heat-watch.js';
import type { BedHour, BedWatch, Judgement, Standing, StepResult, WatchedBed } from './watch.js';

export interface SavedWatching {
  readonly version: string;
  readonly bed: string;
  readonly hour: number | null;
  readonly places: readonly string[];
  readonly quality: SavedQuality;
  readonly sand: SandState;
  readonly humidity: HumidityDriftState;
  readonly frames: Readonly<Record<string, number>>;
  readonly heat: HeatSaved | null;
  readonly dampness: DampnessState | null;
  readonly thermal: ThermalTimeState | null;
  readonly told: readonly Told[];
}

/** Faults with which a probe's temperature says nothing. */
const SPOILS = ['stuck', 'noisy', 'clock', 'sensor-code'];

const isBroken = (faults: readonly FaultVerdict[]): boolean =>
  faults.some(
    ({ kind, quantity, until }) => until === undefined && quantity !== 'humidity' && SPOILS.includes(kind),
  );

export class BedWatching implements BedWatch {
  readonly #watched: WatchedBed;
  readonly #version: string;
  readonly #quality = new HourQuality();
  readonly #settings: ThermalTimeSettings;
  #hour: number | null = null;
  #placed: readonly PlacedProbe[] = [];
  #sand = newSandState();
  #humidity = newHumidityDrift();
  /**
   * By probe: by how much its corrected temperature has jumped since warmth began to be learned, because another
   * calibration came into force, °C. What is learned stays in the frame of the first.
   */
  #frames: Record<string, number> = {};
  #heat: HeatWatch | null = null;
  #dampness: DampnessState | null = null;
  #thermal: ThermalTimeState | null = null;
  #told: readonly Told[] = [];

  constructor(watched: WatchedBed, version: string) {
    this.#watched = watched;
    this.#version = version;
    this.#settings = thermalTimeSettings(watched.thresholds);
  }

  step(hour: BedHour): StepResult {
    this.#requireNext(hour.hour);
    this.#hour = hour.hour;
    const placed = probesIn(this.#watched, hour.hour);
    this.#place(placed, hour.hour);
    const quality = this.#quality.take(hour, placed);
    const opened = hour.inspections.some((inspection) => inspection.opened);
    const repacked = hour.inspections.some((inspection) => inspection.repacked);
    this.#shift(quality);
    const pulled = this.#stepSand(hour, placed, quality);
    const damp = this.#stepDampness(hour, quality, opened, repacked);
    const creeping = this.#stepHumidity(hour, placed, quality);
    // What comes to one place slowly may be water: where the bed is told to be damp, that is what it is.
    const humidityAlone = damp.length > 0 ? new Map<string, number>() : creeping;
    const wet = damp.some(({ kind, action }) => kind === 'wetting' && action !== 'service');
    this.#heat?.takeHour({
      hour: hour.hour,
      means: placed.map(({ id }) => this.#framed(id, quality.probes.get(id)?.temperature?.mean)),
      broken: placed.map(({ id }) => pulled.has(id) || isBroken(quality.faults.get(id) ?? [])),
      shade_C: quality.shade.temperature?.mean,
      opened: opened && !repacked,
      rotLeft: hour.inspections.some(({ found }) => found.includes('rot')),
      wet,
    });
    if (repacked) this.#beginHeat();
    else if (hour.inspections.length > 0) this.#heat?.told();
    this.#stepThermal(hour, placed, quality);
    const judgements = this.#judge(placed, quality);
    const standing = this.#standing(
      placed,
      alsoFaulty(qualityStandings(quality.faults), {
        pulled,
        'humidity-drift': humidityAlone,
        'calibration-due': calibrationsDue(hour, placed, this.#watched.thresholds),
      }),
      damp,
      judgements,
    );
    const { changes, told } = changesOf(this.#told, standing);
    this.#told = told;
    return { changes, judgements, flags: quality.flags };
  }

  #requireNext(hour: number): void {
    const expected = this.#hour === null ? Math.floor(hour / HOUR_ms) * HOUR_ms : this.#hour + HOUR_ms;
    if (hour === expected) return;
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `hour of bed "${this.#watched.bed.id}": expected a whole hour, each once and in order, here ${expected} ms, got ${hour} ms`,
    );
  }

  /** Other probes, or probes elsewhere, make another model of the bed: warmth is learned anew. */
  #place(placed: readonly PlacedProbe[], hour: number): void {
    const same =
      placed.length === this.#placed.length &&
      placed.every((probe, index) => placeKey(probe) === placeKey(this.#placed[index] as PlacedProbe));
    this.#placed = placed;
    if (!same) this.#beginHeat();
    if (placed.length === 0) return;
    const filled = this.#watched.bed.filled ?? hour;
    this.#dampness ??= newDampness(filled);
    this.#thermal ??= startThermalTime(filled);
  }

  #framed(id: string, corrected_C: number | undefined): number | undefined {
    return corrected_C === undefined ? undefined : corrected_C - (this.#frames[id] ?? 0);
  }

  /** What is remembered of a probe goes on as if its new calibration had been in force all along. */
  #shift({ shifts }: JudgedHour): void {
    for (const [id, { temperature, humidity }] of shifts) {
      if (temperature !== undefined) {
        this.#frames[id] = (this.#frames[id] ?? 0) + temperature;
        sandShifted(this.#sand, id);
      }
      if (humidity === undefined) continue;
      shiftHumidityDrift(this.#humidity, id, humidity);
      if (this.#dampness) shiftDampness(this.#dampness, id, humidity);
    }
  }

  #beginHeat(): void {
    this.#frames = {};
    const points = this.#placed.map(({ placement: { x, y, depth } }) => ({ x, y, depth }));
    const { bed, thresholds } = this.#watched;
    this.#heat =
      points.length === 0
        ? null
        : new HeatWatch(bed, points, {
            unpack_per_bed_month: thresholds.heating_unpack_per_bed_month,
            check_per_bed_month: thresholds.heating_check_per_bed_month,
          });
  }

  /** @returns by probe that lies no longer in sand, since when */
  #stepSand(
    { hour, inspections }: BedHour,
    placed: readonly PlacedProbe[],
    quality: JudgedHour,
  ): ReadonlyMap<string, number> {
    if (inspections.length > 0) lookedAfter(this.#sand);
    const means = meansOf(placed, quality, 'temperature', (id) => !isBroken(quality.faults.get(id) ?? []));
    return takeSandHour(this.#sand, { hour, means, shade_C: quality.shade.temperature?.mean });
  }

  /** @returns by probe whose humidity drifts alone, since when */
  #stepHumidity(
    { hour, inspections }: BedHour,
    placed: readonly PlacedProbe[],
    quality: JudgedHour,
  ): ReadonlyMap<string, number> {
    if (inspections.length > 0) humidityLookedAfter(this.#humidity);
    const means = meansOf(placed, quality, 'humidity');
    return takeHumidityHour(this.#humidity, { hour, means, packedAt: this.#dampness?.packedAt ?? hour });
  }

  #stepDampness(hour: BedHour, quality: JudgedHour, opened: boolean, repacked: boolean): Condition[] {
    if (!this.#dampness) return [];
    const input = dampnessHour(this.#watched, this.#placed, hour, quality, opened, repacked);
    return dampStandings(stepDampness(this.#dampness, input).findings);
  }

  #stepThermal({ hour, inspections }: BedHour, placed: readonly PlacedProbe[], quality: JudgedHour): void {
    if (!this.#thermal || hour + HOUR_ms <= this.#thermal.filledAt) return;
    const means = placed.flatMap(({ id }) => quality.probes.get(id)?.temperature?.mean ?? []);
    const warmest = means.length > 0 ? Math.max(...means) : undefined;
    this.#thermal = stepThermalTime(this.#thermal, warmest, hour, this.#settings);
    for (const inspection of inspections) this.#thermal = inspectThermalTime(this.#thermal, inspection);
  }

  #judge(placed: readonly PlacedProbe[], quality: JudgedHour): Map<string, Judgement> {
    const judgements = new Map<string, Judgement>();
    placed.forEach(({ id }, index) => {
      const expectation = this.#heat?.expectations[index];
      if (!expectation) return;
      const mean = quality.probes.get(id)?.temperature?.mean;
      const expected_C = expectation.expected_C + (this.#frames[id] ?? 0);
      judgements.set(id, {
        ...expectation,
        expected_C,
        ...(mean !== undefined && { excess_C: mean - expected_C }),
      });
    });
    return judgements;
  }

  #standing(
    placed: readonly PlacedProbe[],
    broken: readonly Condition[],
    damp: readonly Condition[],
    judgements: ReadonlyMap<string, Judgement>,
  ): Condition[] {
    const heat = this.#heat;
    const ids = placed.map(({ id }) => id);
    const sources = heat?.sources ?? [];
    const excess_C = ids.map((id) => judgements.get(id)?.excess_C);
    const at = (this.#hour ?? 0) + HOUR_ms;
    const drifting = (heat?.faults ?? []).map((fault) => probeStanding(fault, ids[fault.probe] ?? ''));
    const due = (heat && askedStanding(heat)) ?? (this.#thermal ? dueStanding(this.#thermal) : undefined);
    return [
      ...sources.map((source) => sourceStanding(source, ids, excess_C, at, sources.length === 1)),
      ...damp,
      ...broken,
      ...drifting.filter(
        ({ subject }) => !broken.some((one) => one.kind === 'probe-fault' && one.subject === subject),
      ),
      ...(this.#thermal ? grownStandings(this.#thermal, this.#settings) : []),
      ...(due ? [due] : []),
    ];
  }

  standing(): Standing {
    const heat = this.#heat;
    const look = this.#thermal && { nextLook: nextLook(this.#thermal, this.#settings) };
    if (!heat || heat.learning)
      return {
        ...{ learning: true, ...look },
        basis:
          'learning: a source of warmth is told from about five days after filling or repacking on; damp is judged already',
      };
    return {
      ...{ learning: false, ...look },
      basis: heat.blind
        ? 'heat conduction from the probes alone: no shade probe, so judged with a wider band'
        : 'heat conduction from the shade probe and all probes of the bed',
    };
  }

  checkpoint(): string {
    const saved: SavedWatching = {
      ...{ version: this.#version, bed: this.#watched.bed.id, hour: this.#hour },
      places: this.#placed.map(placeKey),
      ...{ quality: this.#quality.save(), sand: this.#sand, humidity: this.#humidity },
      frames: this.#frames,
      heat: this.#heat?.save() ?? null,
      ...{ dampness: this.#dampness, thermal: this.#thermal, told: this.#told },
    };
    return toText(saved);
  }

  restore(saved: SavedWatching): void {
    this.#hour = saved.hour;
    this.#placed = saved.hour === null ? [] : probesIn(this.#watched, saved.hour);
    this.#quality.restore(saved.quality);
    this.#sand = saved.sand;
    this.#humidity = saved.humidity;
    this.#dampness = saved.dampness;
    this.#thermal = saved.thermal;
    this.#told = saved.told;
    this.#beginHeat();
    this.#frames = { ...saved.frames };
    if (saved.heat) this.#heat?.restore(saved.heat);
  }
}
