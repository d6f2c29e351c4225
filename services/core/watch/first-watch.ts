/**
 * The first watch: daily means against the slow mean of the shade and against the neighbours, and humidity
 * against its threshold; every condition must hold for a time.
 *
 * An alarm is raised at the end of the hour in which its condition has held long enough; no later hour moves it.
 */
import { SandlarderError } from '../errors.js';
import { DAY_ms, HOUR_ms } from '../model/time.js';
import { takeHumidity } from './damp.js';
import { endDay } from './day-end.js';
import { addHour, usableMean } from './hourly-mean.js';
import { judgeWarmth } from './judge.js';
import { kindsFor } from './kinds.js';
import { PARAMETERS } from './parameters.js';
import { placeProbes, takeInspections } from './presence.js';
import { changesOf } from './raised.js';
import { takeShade } from './slow-mean.js';
import { standingOf } from './standing.js';
import { fromCheckpoint, newState, toCheckpoint, VERSION, type WatchState } from './state.js';
import type { BedHour, BedWatch, Judgement, Standing, StepResult, Watch, WatchedBed } from './watch.js';

function requireNext(state: WatchState, hour: number): void {
  const expected = state.hour === null ? Math.floor(hour / HOUR_ms) * HOUR_ms : state.hour + HOUR_ms;
  if (!(hour === expected))
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `hour of bed "${state.bed}": expected a whole hour, each once and in order, here ${expected} ms, got ${hour} ms`,
    );
}

class FirstBedWatch implements BedWatch {
  readonly #watched: WatchedBed;
  readonly #state: WatchState;

  constructor(watched: WatchedBed, state: WatchState) {
    this.#watched = watched;
    this.#state = state;
  }

  step(hour: BedHour): StepResult {
    const state = this.#state;
    requireNext(state, hour.hour);
    state.hour = hour.hour;
    takeInspections(state, hour);
    takeShade(state.shade, usableMean(hour.shade?.temperature));
    placeProbes(state, this.#watched, hour.hour);
    for (const [id, probe] of state.probes)
      addHour(probe.hours, usableMean(hour.probes.get(id)?.temperature), PARAMETERS.mean_h);
    const judgements = hour.hour < state.heldTo ? new Map<string, Judgement>() : this.#judge(hour);
    const changes = kindsFor(this.#watched, hour.hour).flatMap((kind) => changesOf(state, kind));
    const end = hour.hour + HOUR_ms;
    if (end % DAY_ms === 0) endDay(state, this.#watched, end);
    return { changes, judgements };
  }

  standing(): Standing {
    return standingOf(this.#state);
  }

  checkpoint(): string {
    return toCheckpoint(this.#state);
  }

  #judge({ probes }: BedHour): ReadonlyMap<string, Judgement> {
    const { thresholds } = this.#watched;
    for (const [id, probe] of this.#state.probes)
      takeHumidity(probe, usableMean(probes.get(id)?.humidity), thresholds);
    return judgeWarmth(this.#state, thresholds);
  }
}

/** Changes of the first watch rest on its published thresholds and on `PARAMETERS`. */
export const firstWatch: Watch = {
  version: VERSION,
  open: (bed, checkpoint) =>
    new FirstBedWatch(
      bed,
      checkpoint === undefined ? newState(bed.bed.id) : fromCheckpoint(checkpoint, bed.bed.id),
    ),
};
