/** Bench work over what is at rest: probes in a bath, their live readings, and the calibrations that come of it. */
import { randomUUID } from 'node:crypto';
import {
  BENCH_SOURCE,
  type BenchReading,
  beginPoint,
  benchCautions,
  capture,
  captureSettled,
  currentPoint,
  dropPoint,
  finished,
  giveUp,
  openBench,
  pointNow,
  probesUnfinished,
  probesWaiting,
  requireOpenAt,
  type Settling,
  saltOf,
  settlingOf,
} from '../core/calibration/index.js';
import { SandlarderError } from '../core/errors.js';
import type { Bench, BenchBody, BenchPointBody, CaptureBody, FinishBody } from '../core/model/bench.js';
import type { Calibration } from '../core/model/calibration-record.js';
import { formatTime, MINUTE_ms } from '../core/model/time.js';
import type { BenchPorts, BenchView, CapturedView, FitView } from '../http/index.js';
import { namedRefusal, probesAsked, requestOf } from './bench-requests.js';
import type { CalibrationDesk } from './calibration-desk.js';
import type { Stay } from './directory.js';
import type { Station } from './station.js';

/** Open bench works that are looked through. */
const MOST_OPEN = 1000;

/** What a person looks back on to see a probe settle, ms. */
const TRACE_ms = 40 * MINUTE_ms;

/** Readings of a trace, at the most: more cannot be told apart on a plot. */
const TRACE_MOST = 120;

/** The last readings, evenly thinned from the latest backwards. */
function traceOf(readings: readonly BenchReading[]): readonly BenchReading[] {
  const latest = readings.at(-1);
  if (latest === undefined) return [];
  const seen = readings.filter(({ time }) => time > latest.time - TRACE_ms);
  const every = Math.ceil(seen.length / TRACE_MOST);
  return seen.filter((_, index) => (seen.length - 1 - index) % every === 0);
}

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

  dropPoint(id: string): BenchView {
    return this.#change(id, (bench) => dropPoint(bench, this.#now()));
  }

  /** All of the probes named or none; where none is named, those that have settled. */
  capture(id: string, { probes }: CaptureBody): CapturedView {
    return this.#station.inTransaction(() => {
      const bench = this.#bench(id);
      const settlings = new Map(
        (probes ?? probesWaiting(bench)).map((probe) => [probe, this.#settling(bench, probe)]),
      );
      const now = this.#now();
      const { bench: after, waiting } = probes
        ? { bench: capture(bench, probes, settlings, now), waiting: [] }
        : captureSettled(bench, settlings, now);
      this.#put(after);
      return { ...this.#view(after), waiting };
    });
  }

  giveUp(id: string, reason: string): BenchView {
    return this.#change(id, (bench) => giveUp(bench, reason, this.#now()));
  }

  fits(id: string, body: FinishBody): readonly FitView[] {
    const bench = this.#bench(id);
    return probesAsked(bench, body).map((probe) => {
      try {
        return {
          probe,
          calibration: this.#calibrations.made(requestOf(bench, probe, body)),
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
      const calibrations = probesAsked(bench, body).map((probe) =>
        this.#named(bench, probe, () => this.#calibrations.write(requestOf(bench, probe, body))),
      );
      const made = calibrations.map((one) => ({ probe: one.probe, calibration: one.id }));
      const after = finished(bench, made, this.#now(), body.close);
      this.#put(after);
      return { bench: this.#view(after), calibrations };
    });
  }

  /** What is wrong is said with the probe that it is wrong with: of thirty, one holds up the rest. */
  #named(bench: Bench, probe: string, make: () => Calibration): Calibration {
    try {
      return make();
    } catch (error) {
      if (!(error instanceof SandlarderError)) throw error;
      throw namedRefusal(bench, probe, error);
    }
  }

  /** In a bath its readings must not be taken for sand, nor for the air outside. */
  #requireFree(site: string, probe: string, now: number): void {
    this.#calibrations.existsSince(site, probe);
    const stay = this.#stayOf(site, probe, now);
    if (stay) {
      const where = stay.placement ? `bed "${stay.placement.bed}"` : 'the shade';
      throw new SandlarderError(
        'CONFLICT',
        `probe ${probe}: expected one that lies in no bed and hangs in no shade, but by the site description it is in ${where}: take it out first (at Settings, Probes, or by a "to" in its placement), or its readings in the bath would be judged as those of ${stay.placement ? 'sand' : 'the air'}`,
      );
    }
    const other = this.#station.registry.benches
      .list({ site, state: 'open', limit: MOST_OPEN })
      .find((bench) => probesUnfinished(bench).includes(probe));
    if (other)
      throw new SandlarderError(
        'CONFLICT',
        `probe ${probe}: expected one that is on no bench, but it is on bench ${other.id}: finish that or give it up`,
      );
  }

  #stayOf(site: string, probe: string, now: number): Stay | undefined {
    return this.#station.directory.find(site, probe)?.stays.find(({ from, to }) => from <= now && now < to);
  }

  /** Probes in a bath that were placed since the bench was opened. */
  #warnings(bench: Bench): string[] {
    if (bench.state !== 'open') return [];
    return probesUnfinished(bench).flatMap((probe) => {
      const stay = this.#stayOf(bench.site, probe, this.#now());
      if (!stay) return [];
      const [where, what] = stay.placement ? [stay.placement.bed, 'sand'] : ['the shade', 'air'];
      return [
        `${probe} stands in ${where} since ${formatTime(stay.from)}: its bath is judged as ${what}: give the placement a later "from"`,
      ];
    });
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
    return settlingOf(bench, probe, this.#readings(bench, probe));
  }

  /** Of a probe since the current point began, raw, in order of time. */
  #readings(bench: Bench, probe: string): readonly BenchReading[] {
    const { archive, directory } = this.#station;
    const known = directory.find(bench.site, probe);
    const key = known?.key ?? archive.keys.find(bench.site, probe);
    const store = known ? archive.readings : archive.apartReadings;
    const from = currentPoint(bench).startedAt;
    const samples = key === undefined ? [] : store.samples(key, from, Number.MAX_SAFE_INTEGER);
    return samples.flatMap(({ at, [bench.quantity]: value }) =>
      value === undefined ? [] : [{ time: at, value }],
    );
  }

  #view(bench: Bench): BenchView {
    const point = pointNow(bench);
    const watched = bench.state === 'open' && point ? probesUnfinished(bench) : [];
    return {
      bench,
      warnings: this.#warnings(bench),
      settling: watched.map((probe) => ({
        probe,
        captured: point?.captured.some((one) => one.probe === probe) ?? false,
        trace: traceOf(this.#readings(bench, probe)),
        ...this.#settling(bench, probe),
      })),
      cautions: point
        ? benchCautions(BENCH_SOURCE[point.source], point.salt ? saltOf(point.salt).cautions : [])
        : [],
    };
  }
}
