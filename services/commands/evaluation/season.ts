/** One simulated bed through its season: the hours that a watch is given, and what is true of it. */
import {
  inspectionsOf,
  type Scenario,
  simulateDaysWithTruth,
  siteOf,
  type TrueHour,
  type Truth,
  truthOf,
} from '../../../simulator/index.js';
import { checkSiteFile } from '../../core/model/site-file.js';
import { thresholdsInForce } from '../../core/model/threshold.js';
import { HOUR_ms, hourOf } from '../../core/model/time.js';
import type { BedHour, Sample, WatchedBed } from '../../core/watch/watch.js';

/** When simulated seasons begin, ms: any midnight will do. */
const FROM = Date.UTC(2026, 4, 4);

export type Rot = Extract<Truth, { kind: 'rot' }>;
export type Fault = Extract<Truth, { kind: 'fault' }>;

export interface EvaluatedSeason {
  readonly scenario: string;
  readonly seed: number;
  readonly bed: string;
  readonly days: number;
  /** Probes in the bed. */
  readonly probes: number;
  /** Whether readings were planned to come late or the shade probe to be missing. */
  readonly apart: boolean;
  readonly startAt: number;
  readonly watched: WatchedBed;
  readonly hours: readonly BedHour[];
  readonly truth: readonly Truth[];
  /** What is true at the probes, hour by hour. */
  readonly trueHours: readonly TrueHour[];
}

type Samples = Map<number, Map<string, Sample[]>>;

function collect(scenario: Scenario, part: string, seed: number): { samples: Samples; hours: TrueHour[] } {
  const samples: Samples = new Map();
  const hours: TrueHour[] = [];
  for (const { sent, hours: through } of simulateDaysWithTruth(scenario, part, seed)) {
    hours.push(...through);
    for (const { probe, readings } of sent)
      for (const { time_s, temperature_C, humidity_RH } of readings)
        add(samples, probe, {
          at: FROM + Math.round(time_s * 1000),
          temperature: temperature_C,
          humidity: humidity_RH,
        });
  }
  return { samples, hours };
}

/** The first value of a time stands, as in the archive. */
function add(samples: Samples, probe: string, sample: Sample): void {
  const hour = samples.get(hourOf(sample.at)) ?? new Map<string, Sample[]>();
  samples.set(hourOf(sample.at), hour);
  const own = hour.get(probe) ?? [];
  hour.set(probe, own);
  const at = own.findIndex((one) => one.at >= sample.at);
  if (at < 0) own.push(sample);
  else if (own[at]?.at !== sample.at) own.splice(at, 0, sample);
}

const isApart = ({ shade, faults }: Scenario): boolean =>
  faults.outages.length > 0 || shade.length === 0 || faults.probes.some(({ probe }) => shade.includes(probe));

/** All beds of a scenario, one after the other: a season is some megabytes. */
export function* seasonsOf(name: string, scenario: Scenario, seed: number): Generator<EvaluatedSeason> {
  const site = checkSiteFile(name, siteOf(scenario, FROM));
  const shade = collect(scenario, 'shade', seed).samples;
  const inspections = inspectionsOf(scenario, FROM);
  const truth = truthOf(scenario, seed);
  for (const bed of site.beds) {
    const { samples, hours: trueHours } = collect(scenario, bed.id, seed);
    const placements = new Map(
      site.probes.flatMap(({ id, placements: own }) => {
        const here = own.flatMap((one) => (!one.ambient && one.bed === bed.id ? [one] : []));
        return here.length > 0 ? [[id, here] as const] : [];
      }),
    );
    const looked = inspections.filter((one) => one.bed === bed.id);
    const hours = Array.from({ length: scenario.days * 24 }, (_, index): BedHour => {
      const hour = FROM + index * HOUR_ms;
      return {
        hour,
        probes: samples.get(hour) ?? new Map(),
        shade: shade.get(hour) ?? new Map(),
        inspections: looked
          .filter(({ at }) => at >= hour && at < hour + HOUR_ms)
          .map((one) => ({ ...one, id: `${bed.id}.${one.at}` })),
      };
    });
    yield {
      ...{ scenario: name, seed, bed: bed.id, days: scenario.days, startAt: FROM, hours, trueHours },
      ...{ probes: placements.size, apart: isApart(scenario) },
      watched: { bed, thresholds: thresholdsInForce(), placements },
      truth: truth.filter((one) => one.bed === bed.id || one.bed === null),
    };
  }
}
