/** Bench work over what is at rest: probes in a bath, their live readings, and the calibrations that come of it. */
import { randomUUID } from 'node:crypto';
import {
  BENCH_SOURCE,
  beginPoint,
  benchCautions,
  type CalibrationRequest,
  capture,
  currentPoint,
  finished,
  giveUp,
  openBench,
  pointNumbersOf,
  pointsOf,
  probesWaiting,
  requireOpenAt,
  type Settling,
  saltOf,
  settlingOf,
} from '../core/calibration/index.js';
import { SandlarderError } from '../core/errors.js';
import type { Bench, BenchBody, BenchPointBody, CaptureBody, FinishBody } from '../core/model/bench.js';
import type { Calibration } from '../core/model/calibration-record.js';
import type { BenchPorts, BenchView, FitView } from '../http/index.js';
import type { CalibrationDesk } from './calibration-desk.js';
import type { Station } from './station.js';

/** Open bench works that are looked through. */
const MOST_OPEN = 1000;

export class BenchDesk implements BenchPorts {
  readonly #station: Station;
  readonly #calibrations: CalibrationDesk;
  /** Wall clock, ms. */
  readonly #now: () => number;

  constructor(station: Station, calibrations: CalibrationDesk, now: () => number) {
    this.#station = station;
    this.#calibrations = calibrations;
    this.#now = now;
  }

  list(site: string | undefined, state: Bench['state'] | undefined, limit: number): readonly Bench[] {
    return this.#station.registry.benches.list({
      ...(site !== undefined && { site }),
      ...(state !== undefined && { state }),
      limit,
    });
  }

  open(body: BenchBody): BenchView {
    const now = this.#now();
    return this.#station.inTransaction(() => {
      for (const probe of body.probes) this.#requireFree(body.site, probe, now);
      const bench = openBench(body, randomUUID(), now);
      this.#station.registry.benches.add(bench, now);
      this.#station.noteBench();
      return this.#view(bench);
    });
  }

  get(id: string): BenchView {
    return this.#view(this.#bench(id));
  }

  point(id: string, body: BenchPointBody): BenchView {
    return this.#change(id, (bench) => beginPoint(bench, body, this.#now()));
  }

  capture(id: string, { probes }: CaptureBody): BenchView {
    return this.#change(id, (bench) => {
      const taken = probes ?? probesWaiting(bench);
      const settlings = new Map(taken.map((probe) => [probe, this.#settling(bench, probe)]));
      return capture(bench, taken, settlings, this.#now());
    });
  }

  giveUp(id: string, reason: string): BenchView {
    return this.#change(id, (bench) => giveUp(bench, reason, this.#now()));
  }

  fits(id: string, body: FinishBody): readonly FitView[] {
    const bench = this.#bench(id);
    return this.#probesOf(bench, body).map((probe) => {
      try {
        return {
          probe,
          calibration: this.#calibrations.made(this.#request(bench, probe, body)),
          problem: null,
        };
      } catch (error) {
        if (!(error instanceof SandlarderError)) throw error;
        return { probe, calibration: null, problem: error.message };
      }
    });
  }

  finish(id: string, body: FinishBody): { bench: BenchView; calibrations: readonly Calibration[] } {
    return this.#station.inTransaction(() => {
      const bench = this.#bench(id);
      requireOpenAt(bench, this.#now());
      const calibrations = this.#probesOf(bench, body).map((probe) =>
        this.#named(probe, () => this.#calibrations.write(this.#request(bench, probe, body))),
      );
      const after = finished(
        bench,
        calibrations.map((calibration) => calibration.id),
        this.#now(),
      );
      this.#put(after);
      return { bench: this.#view(after), calibrations };
    });
  }

  #probesOf(bench: Bench, { probes, fit }: FinishBody): readonly string[] {
    const named = [...(probes ?? []), ...(fit.leaveOut ?? []).map(({ probe }) => probe)];
    const strangers = named.filter((probe) => !bench.probes.includes(probe));
    if (strangers.length > 0)
      throw new SandlarderError(
        'BAD_REQUEST',
        `probes: expected some of ${bench.probes.join(', ')}, got ${strangers.join(', ')}`,
      );
    return probes ?? bench.probes;
  }

  /** What is wrong is said with the probe that it is wrong with: of thirty, one holds up the rest. */
  #named(probe: string, make: () => Calibration): Calibration {
    try {
      return make();
    } catch (error) {
      if (!(error instanceof SandlarderError)) throw error;
      throw new SandlarderError(
        error.code,
        `probe ${probe}: ${error.message}; name the others in "probes" to go on without it`,
      );
    }
  }

  #request(bench: Bench, probe: string, { from, fit }: FinishBody): CalibrationRequest {
    const points = pointsOf(bench, probe);
    const numbers = pointNumbersOf(bench, probe);
    const { leaveOut = [], ...rest } = fit;
    const doneAt = Math.max(bench.startedAt, ...points.flatMap(({ at }) => at ?? []));
    const { site, quantity, by, reference, conditions, id } = bench;
    return {
      ...{
        site,
        probe,
        quantity,
        by,
        reference,
        conditions,
        points,
        doneAt,
        from: from ?? doneAt,
        bench: id,
      },
      fit: {
        ...rest,
        leaveOut: leaveOut
          .filter((one) => one.probe === probe)
          .map(({ point, reason }) => ({ index: indexOf(numbers, probe, point), reason })),
      },
    };
  }

  /** In a bath its readings must not be taken for sand, nor for the air outside. */
  #requireFree(site: string, probe: string, now: number): void {
    this.#calibrations.existsSince(site, probe);
    const stay = this.#station.directory
      .find(site, probe)
      ?.stays.find(({ from, to }) => from <= now && now < to);
    if (stay) {
      const where = stay.placement ? `bed "${stay.placement.bed}"` : 'the shade';
      throw new SandlarderError(
        'CONFLICT',
        `probe ${probe}: expected one that stands nowhere, but it stands in ${where} by the site description: give that placement a "to" and load it, or its readings in the bath would be judged as those of ${stay.placement ? 'sand' : 'the air'}`,
      );
    }
    const other = this.#station.registry.benches
      .list({ site, state: 'open', limit: MOST_OPEN })
      .find(({ probes }) => probes.includes(probe));
    if (other)
      throw new SandlarderError(
        'CONFLICT',
        `probe ${probe}: expected one that is on no bench, but it is on bench ${other.id}: finish that or give it up`,
      );
  }

  #bench(id: string): Bench {
    const bench = this.#station.registry.benches.get(id);
    if (!bench) throw new SandlarderError('NOT_FOUND', `no bench has the id "${id}"`);
    return bench;
  }

  #put(bench: Bench): void {
    this.#station.registry.benches.put(bench, this.#now());
    this.#station.noteBench();
  }

  #change(id: string, change: (bench: Bench) => Bench): BenchView {
    return this.#station.inTransaction(() => {
      const bench = change(this.#bench(id));
      this.#put(bench);
      return this.#view(bench);
    });
  }

  #settling(bench: Bench, probe: string): Settling {
    const { archive, directory } = this.#station;
    const known = directory.find(bench.site, probe);
    const key = known?.key ?? archive.keys.find(bench.site, probe);
    const store = known ? archive.readings : archive.apartReadings;
    const from = currentPoint(bench).startedAt;
    const samples = key === undefined ? [] : store.samples(key, from, Number.MAX_SAFE_INTEGER);
    return settlingOf(
      bench,
      probe,
      samples.flatMap(({ at, [bench.quantity]: value }) =>
        value === undefined ? [] : [{ time: at, value }],
      ),
    );
  }

  #view(bench: Bench): BenchView {
    const point = bench.points.at(-1);
    const watched = bench.state === 'open' && point ? bench.probes : [];
    return {
      bench,
      settling: watched.map((probe) => ({
        probe,
        captured: point?.captured.some((one) => one.probe === probe) ?? false,
        ...this.#settling(bench, probe),
      })),
      cautions: point
        ? benchCautions(BENCH_SOURCE[point.source], point.salt ? saltOf(point.salt).cautions : [])
        : [],
    };
  }
}

function indexOf(numbers: readonly number[], probe: string, point: number): number {
  const index = numbers.indexOf(point);
  if (index >= 0) return index;
  throw new SandlarderError(
    'BAD_REQUEST',
    `leaveOut: expected a point at which probe ${probe} was captured, one of ${numbers.join(', ') || 'none'}, got ${point}`,
  );
}
