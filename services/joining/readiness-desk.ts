/** Whether beds may be filled: judged now, kept with the answers of a hand, overridden with a reason. */
import { randomUUID } from 'node:crypto';
import { SandlarderError } from '../core/errors.js';
import { limitsOfBed, overrideReadiness, type Readiness, readinessOf } from '../core/keeping/index.js';
import type {
  HandAnswers,
  Override,
  OverrideRecord,
  ReadinessBody,
  ReadinessRecord,
} from '../core/model/readiness.js';
import type { ReadinessPorts, ReadinessView } from '../http/index.js';
import type { KnownBed } from './directory.js';
import { filledBy, knownBed, requireCome, requireSame } from './known-bed.js';
import { readinessProbes } from './readiness-probes.js';
import type { Station } from './station.js';

/** Sand tests of a bed that are looked through for the newest of each kind. */
const MOST_SAND_TESTS = 50;

export class ReadinessDesk implements ReadinessPorts {
  readonly #station: Station;
  /** Wall clock, ms. */
  readonly #now: () => number;

  constructor(station: Station, now: () => number) {
    this.#station = station;
    this.#now = now;
  }

  now(id: string): ReadinessView {
    const known = knownBed(this.#station, id);
    const at = this.#now();
    const record = this.#latest(known, at);
    const answers = this.#answers(known, at, record);
    return { readiness: this.#judge(known, at, answers), answers, record: record ?? null };
  }

  keep(id: string, { id: own, at, by, answers: given }: ReadinessBody): ReadinessRecord {
    const known = knownBed(this.#station, id);
    requireCome(at, this.#now());
    const there = own === undefined ? undefined : this.#station.registry.readiness.get(own);
    if (there) return sentAgain(there, id, at, by, given);
    const before = this.#latest(known, at);
    requireProbes(known, given.probesInSand);
    const answers = { ...this.#answers(known, at, before), ...given };
    const { verdict, notMet, unknown, items } = this.#judge(known, at, answers);
    const { kind } = known.bed;
    const record: ReadinessRecord = {
      ...{ id: own ?? randomUUID(), bed: id, at, by, kind, answers, items, verdict, notMet, unknown },
      overrides: [],
    };
    const { registry } = this.#station;
    this.#station.inTransaction(() => registry.readiness.add(known.site.id, record, this.#now()));
    this.#station.changes.bed(id);
    return record;
  }

  override(bed: string, id: string, body: Override): ReadinessRecord {
    knownBed(this.#station, bed);
    requireCome(body.at, this.#now());
    return this.#station.inTransaction(() => {
      const record = this.#find(bed, id);
      const added = overrideReadiness(asReadiness(record), body).overrides.at(-1) as OverrideRecord;
      this.#station.registry.readiness.override(id, added, this.#now());
      this.#station.changes.bed(bed);
      return this.#find(bed, id);
    });
  }

  list(id: string, limit: number): readonly ReadinessRecord[] {
    knownBed(this.#station, id);
    return this.#station.registry.readiness.list(id, limit);
  }

  #find(bed: string, id: string): ReadinessRecord {
    const record = this.#station.registry.readiness.get(id);
    if (record?.bed !== bed)
      throw new SandlarderError('NOT_FOUND', `bed "${bed}" has no record of readiness with the id "${id}"`);
    return record;
  }

  #judge(known: KnownBed, at: number, answers: HandAnswers): Readiness {
    const { site, bed } = known;
    return readinessOf(
      { at, kind: bed.kind, answers, ...readinessProbes(this.#station, known, at, answers) },
      limitsOfBed(site.thresholds, bed.thresholds),
    );
  }

  /** Of what was said by a time about this filling: what was said before the last one was about that. */
  #latest(known: KnownBed, at: number): ReadinessRecord | undefined {
    const record = this.#station.registry.readiness.upTo(known.bed.id, at);
    return record && record.at > (filledBy(this.#station, known, at) ?? 0) ? record : undefined;
  }

  /** The last record's, with what was sieved and weighed for the bed since. */
  #answers(known: KnownBed, at: number, record: ReadinessRecord | undefined): HandAnswers {
    const since = record?.at ?? filledBy(this.#station, known, at) ?? 0;
    const tests = this.#station.registry.sandTests
      .list(known.bed.id, MOST_SAND_TESTS)
      .filter((one) => one.at > since && one.at <= at)
      .map(({ measured }) => measured);
    const sieving = tests.find((one) => one.sieving)?.sieving;
    const weighing = tests.find((one) => one.weighing)?.weighing;
    return { ...record?.answers, ...(sieving && { sieving }), ...(weighing && { weighing }) };
  }
}

/** As far as an override looks at it. */
const asReadiness = (record: ReadinessRecord): Readiness => ({ ...record, sentence: '', cautions: [] });

/** @throws SandlarderError BAD_REQUEST for one that never stood in the bed */
function requireProbes({ bed, probes }: KnownBed, ids: readonly string[] = []): void {
  const strange = ids.find((id) => !probes.some(({ probe }) => probe.id === id));
  if (strange !== undefined)
    throw new SandlarderError(
      'BAD_REQUEST',
      `probesInSand: expected probes of bed "${bed.id}" (${probes.map(({ probe }) => probe.id).join(', ') || 'it has none'}), got "${strange}"`,
    );
}

/** What it was judged by then stands; what was answered must be the same. */
function sentAgain(there: ReadinessRecord, bed: string, at: number, by: string, given: HandAnswers) {
  const answers = { ...there.answers, ...given };
  return requireSame(there, { ...there, bed, at, by, answers });
}
