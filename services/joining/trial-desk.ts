/** Trials: written down, drawn, corrected, and what they come to. What reckons is loaded when it is first asked for. */
import { randomInt, randomUUID } from 'node:crypto';
import { SandlarderError } from '../core/errors.js';
import { isSameRecord } from '../core/keeping/index.js';
import {
  type AssignmentBody,
  type DrawBody,
  type PowerBody,
  TRIAL_LIMITS,
  type Trial,
  type TrialBody,
} from '../core/model/trial.js';
import { assignTreatments } from '../core/trials/assign.js';
import type { SummaryCurve, TrialResult, TrialSize } from '../core/trials/index.js';
import type { CurvesQuery, TrialKept, TrialPorts } from '../http/index.js';
import { requireCome } from './known-bed.js';
import type { Station } from './station.js';
import { trialMaterials } from './trial-material.js';
import { assignedOf, drawnOf, overlaps, requireOneDraw, requireUndrawn } from './trial-versions.js';

const analysis = () => import('../core/trials/index.js');

export class TrialDesk
  implements Pick<TrialPorts, 'list' | 'versions' | 'add' | 'draw' | 'assign' | 'power' | 'result' | 'curves'>
{
  readonly #station: Station;
  /** Wall clock, ms. */
  readonly #now: () => number;

  constructor(station: Station, now: () => number) {
    this.#station = station;
    this.#now = now;
  }

  list(): readonly Trial[] {
    return this.#station.registry.trials.standing();
  }

  versions(trial: string): readonly [Trial, ...Trial[]] {
    const [last, ...earlier] = this.#station.registry.trials.versions(trial);
    if (!last) throw new SandlarderError('NOT_FOUND', `no trial has the id "${trial}"`);
    return [last, ...earlier];
  }

  add(body: TrialBody): TrialKept {
    const there = this.#sentAgain(body.id);
    if (there) {
      const { id: _, assigned: __, drawn: ___, ...kept } = there;
      const { id: ____, ...sent } = body;
      if (!isSameRecord({ ...kept, id: there.id }, { ...sent, id: there.id })) throw anotherUnder(there.id);
      return { trial: there, isNew: false };
    }
    requireCome(body.at, this.#now());
    return this.#station.inTransaction(() => {
      const before = this.#corrected(body);
      this.#requireBeds(body);
      const drawn = drawnOf(body, before);
      return this.#keep({
        ...{ ...body, id: body.id ?? randomUUID(), assigned: assignedOf(body, before) },
        ...(drawn && { drawn }),
      });
    });
  }

  draw(id: string, body: DrawBody): TrialKept {
    const there = this.#sentAgain(body.id);
    if (there) {
      if (!isSameDeed(there, id, body) || there.drawn === undefined) throw anotherUnder(there.id);
      return { trial: there, isNew: false };
    }
    requireCome(body.at, this.#now());
    return this.#station.inTransaction(() => {
      const [before] = this.versions(id);
      requireUndrawn(before);
      return before.drawn ? { trial: before, isNew: false } : this.#show(before, body);
    });
  }

  #show(before: Trial, { id = randomUUID(), at, by }: DrawBody): TrialKept {
    const seed = randomInt(TRIAL_LIMITS.seed + 1);
    const beds = assignTreatments(before.beds, before.treatments, before.design, seed);
    return this.#keep({
      ...{ ...before, id, at, by, supersedes: before.id, reason: 'treatments were drawn and shown' },
      drawn: { seed, at, by, beds },
    });
  }

  assign(id: string, body: AssignmentBody): TrialKept {
    const there = this.#sentAgain(body.id);
    if (there) {
      const { assigned } = there;
      const isSame =
        isSameDeed(there, id, body) &&
        assigned?.how === 'chance' &&
        (body.seed === undefined || body.seed === assigned.seed);
      if (!isSame) throw anotherUnder(there.id);
      return { trial: there, isNew: false };
    }
    requireCome(body.at, this.#now());
    return this.#station.inTransaction(() => this.#assign(this.versions(id)[0], body));
  }

  #assign(trial: Trial, { id = randomUUID(), at, by, seed: named }: AssignmentBody): TrialKept {
    requireUndrawn(trial);
    const { drawn, ...before } = trial;
    requireOneDraw(drawn, named);
    const seed = drawn?.seed ?? named ?? randomInt(TRIAL_LIMITS.seed + 1);
    return this.#keep({
      ...{ ...before, id, at, by, supersedes: before.id, reason: 'treatments were drawn' },
      beds: drawn?.beds ?? assignTreatments(before.beds, before.treatments, before.design, seed),
      assigned: { how: 'chance', seed, at, by },
    });
  }

  #keep(trial: Trial): TrialKept {
    this.#station.registry.trials.add(trial, this.#now());
    for (const { bed } of trial.beds) this.#station.changes.bed(bed);
    return { trial, isNew: true };
  }

  #sentAgain(id: string | undefined): Trial | undefined {
    return id === undefined ? undefined : this.#station.registry.trials.get(id);
  }

  /** The version that a body corrects; undefined for a new trial. */
  #corrected({ trial, supersedes }: TrialBody): Trial | undefined {
    const [last] = this.#station.registry.trials.versions(trial);
    if (supersedes === undefined && last)
      throw new SandlarderError(
        'CONFLICT',
        `trial: expected an id that is not in use, or the version that is corrected as supersedes, got "${trial}", which is there as version ${last.id}`,
      );
    if (supersedes !== undefined && last?.id !== supersedes)
      throw new SandlarderError(
        'CONFLICT',
        `supersedes: expected the version of trial "${trial}" that stands, ${last ? last.id : 'which is none'}, got ${supersedes}`,
      );
    return last;
  }

  /** Known, and in one trial at a time. */
  #requireBeds(body: TrialBody): void {
    const strange = body.beds.find(({ bed }) => !this.#station.directory.beds.has(bed));
    if (strange) throw new SandlarderError('NOT_FOUND', `no bed has the id "${strange.bed}"`);
    const beds = new Set(body.beds.map(({ bed }) => bed));
    for (const other of this.list()) {
      if (other.trial === body.trial || !overlaps(body, other)) continue;
      const shared = other.beds.find(({ bed }) => beds.has(bed));
      if (shared)
        throw new SandlarderError(
          'CONFLICT',
          `bed "${shared.bed}": expected it in one trial at a time, got it in trial "${other.trial}" during that time`,
        );
    }
  }

  async power({ design: by, beds, power, ...question }: PowerBody): Promise<TrialSize> {
    const { trialSize } = await analysis();
    return trialSize({ by, ...question }, { beds, power });
  }

  async result(id: string): Promise<TrialResult> {
    const [trial] = this.versions(id);
    const { trialResult } = await analysis();
    return trialResult(trial, await trialMaterials(this.#station, trial, this.#now()));
  }

  async curves(id: string, { of, by }: CurvesQuery): Promise<readonly SummaryCurve[]> {
    const [trial] = this.versions(id);
    const { trialCurves } = await analysis();
    return trialCurves(trial, await trialMaterials(this.#station, trial, this.#now()), of, by);
  }
}

const isSameDeed = (there: Trial, trial: string, { at, by }: DrawBody): boolean =>
  there.trial === trial && there.at === at && there.by === by;

const anotherUnder = (id: string): SandlarderError =>
  new SandlarderError(
    'CONFLICT',
    `id: expected a new UUID, or the record that is there under it, got another one under ${id}`,
  );
