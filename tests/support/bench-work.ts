/** Probes in baths and jars over a station, at a clock that a test sets. */
import type { BenchBody } from '../../services/core/model/bench.js';
import { DAY_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { BenchDesk } from '../../services/joining/bench-desk.js';
import { CalibrationDesk } from '../../services/joining/calibration-desk.js';
import { type Message, SHORT_SEASON, siteOf } from './season.js';
import { openStation, type TestStation } from './station.js';

/** When the work begins: after the season of the site, before the wall clock of the stations. */
export const BENCH_AT = Date.UTC(2026, 10, 2, 8);

export const minuteAt = (minute: number): number => BENCH_AT + minute * MINUTE_ms;

/** The site with two probes on the shelf, k01 and k02, beside those that stand in the bed. */
export function siteWithShelf(placements: readonly unknown[] = []): unknown {
  const site = siteOf(SHORT_SEASON) as { probes: object[] };
  return { ...site, probes: [...site.probes, { id: 'k01', placements }, { id: 'k02', placements: [] }] };
}

/** A station with its desks, whose clock stands at the begin of the work. */
export function openBenchDesk({
  station = openStation(),
  site = siteWithShelf(),
  startAt = BENCH_AT,
}: {
  station?: TestStation;
  site?: unknown;
  startAt?: number;
} = {}) {
  station.load(site, BENCH_AT - DAY_ms);
  station.station.refresh();
  let now = startAt;
  const desk = new CalibrationDesk(station.station, () => now);
  const bench = new BenchDesk(station.station, desk, () => now);
  return {
    ...station,
    desk,
    bench,
    /** Sets the clock, in minutes from the begin of the work. */
    goTo: (minute: number) => {
      now = minuteAt(minute);
    },
  };
}

export type BenchStation = ReturnType<typeof openBenchDesk>;

export const benchOf = (change: Partial<BenchBody> = {}): BenchBody => ({
  ...{ site: 'test-ridge', probes: ['k01', 'k02'], quantity: 'temperature', by: 'bench-hand' },
  ...{ reference: { name: 'station thermometer' }, conditions: {} },
  ...change,
});

export interface Approach {
  readonly probe: string;
  readonly quantity?: 'temperature' | 'humidity';
  /** Minutes from the begin of the work. */
  readonly from: number;
  readonly to: number;
  readonly every_s?: number;
  readonly start: number;
  readonly end: number;
  /** s. */
  readonly constant_s?: number;
}

const UNIT = { temperature: 'Cel', humidity: '%RH' } as const;

/** A small body in a bath closes its distance by the same share in each stretch of time; told to a hundredth, to and fro. */
export function approaching(approach: Approach): Message[] {
  const { probe, quantity = 'temperature', from, to, every_s = 10, start, end, constant_s = 60 } = approach;
  const count = Math.floor(((to - from) * 60) / every_s) + 1;
  return Array.from({ length: count }, (_, step) => {
    const gone_s = step * every_s;
    const v = Math.round(100 * (end + (start - end) * Math.exp(-gone_s / constant_s)) + (step % 2)) / 100;
    const bt = minuteAt(from) / 1000 + gone_s;
    return {
      topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
      payload: JSON.stringify([{ n: quantity, u: UNIT[quantity], v, bt }]),
    };
  });
}
