/** Trials: written down, drawn, corrected, and what they come to. What reckons is loaded when it is first asked for. */
import { randomInt, randomUUID } from 'node:crypto';
import { SandlarderError } from '../core/errors.js';
import { isSameRecord } from '../core/keeping/index.js';
import { type AssignmentBody, TRIAL_LIMITS, type Trial, type TrialBody } from '../core/model/trial.js';
import { assignTreatments } from '../core/trials/assign.js';
import type { SummaryCurve, TrialResult } from '../core/trials/index.js';
import type { CurvesQuery, TrialKept, TrialPorts } from '../http/index.js';
import { requireCome } from './known-bed.js';
import type { Station } from './station.js';
import { trialMaterials } from './trial-material.js';

const analysis = () => import('../core/trials/index.js');

export class TrialDesk
  implements Pick<TrialPorts, 'list' | 'versions' | 'add' | 'assign' | 'result' | 'curves'>
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
      const { id: _, assigned: __, ...kept } = there;
      const { id: ___, ...sent } = body;
      if (!isSameRecord({ ...kept, id: there.id }, { ...sent, id: there.id })) throw anotherUnder(there.id);
      return { trial: there, isNew: false };
    }
    requireCome(body.at, this.#now());
    return this.#station.inTransaction(() => {
      const before = this.#corrected(body);
      this.#requireBeds(body);
      const trial: Trial = { ...body, id: body.id ?? randomUUID(), assigned: assignedOf(body, before) };
      return this.#keep(trial);
    });
  }

  assign(id: string, body: AssignmentBody): TrialKept {
    const there = this.#sentAgain(body.id);
    if (there) {
      const { assigned } = there;
      const isSame =
        there.trial === id &&
        assigned?.how === 'chance' &&
        assigned.by === body.by &&
        assigned.at === body.at &&
        (body.seed === undefined || body.seed === assigned.seed);
      if (!isSame) throw anotherUnder(there.id);
      return { trial: there, isNew: false };
    }
    requireCome(body.at, this.#now());
    return this.#station.inTransaction(() => this.#draw(this.versions(id)[0], body));
  }

  #draw(
    before: Trial,
    { id = randomUUID(), at, by, seed = randomInt(TRIAL_LIMITS.seed + 1) }: AssignmentBody,
  ): TrialKept {
    if (before.assigned)
      throw new SandlarderError(
        'CONFLICT',
        `trial "${before.trial}": expected one without treatments, got one whose treatments were ${before.assigned.how === 'chance' ? `drawn with seed ${before.assigned.seed}` : 'given by hand'}: who draws until it pleases does not draw by chance`,
      );
    return this.#keep({
      ...before,
      ...{ id, at, by, supersedes: before.id, reason: 'treatments were drawn' },
      beds: assignTreatments(before.beds, before.treatments, before.design, seed),
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

/** Whether two spans have a time in common. */
const overlaps = ({ from, to }: Span, other: Span): boolean =>
  from < (other.to ?? Number.POSITIVE_INFINITY) && other.from < (to ?? Number.POSITIVE_INFINITY);

type Span = Pick<Trial, 'from' | 'to'>;

const anotherUnder = (id: string): SandlarderError =>
  new SandlarderError(
    'CONFLICT',
    `id: expected a new UUID, or the record that is there under it, got another one under ${id}`,
  );

/** What was drawn stays drawn as long as every bed keeps its treatment. */
function assignedOf({ beds }: TrialBody, before: Trial | undefined): Trial['assigned'] {
  const given = beds.some(({ treatment }) => treatment !== undefined);
  if (!before?.assigned) return given ? { how: 'hand' } : null;
  if (!given)
    throw new SandlarderError(
      'CONFLICT',
      'beds: expected the treatments that they have, or others given by hand, got none: treatments are not drawn again',
    );
  const had = new Map(before.beds.map(({ bed, treatment }) => [bed, treatment]));
  const isKept = beds.every(({ bed, treatment }) => had.get(bed) === treatment);
  return isKept ? before.assigned : { how: 'hand' };
}
