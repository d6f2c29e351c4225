/** What the benches publish: readings of many probes in many beds, ten minutes apart, and the site they belong to. */

/** First event time, ms. Years ago, so that no load reaches into the future, where readings are set aside. */
export const START_ms = Date.UTC(2024, 0, 1);

/** Event time between two readings of a probe, s. */
const EVERY_s = 600;

export const SITE = 'bench-site';

/** A connection's share of the load is whole beds, as behind a gateway: a bed's readings then arrive in order. */
export interface Load {
  readonly beds: number;
  readonly probesPerBed: number;
  /** Messages before the first one that is published; none where absent. */
  readonly begins?: number;
  /** Published first and not timed: the programs are compiled by then, and the watch has learned its beds. */
  readonly warmUp: number;
  /** Published next, and timed. */
  readonly timed: number;
  readonly connections: number;
  /** Messages that may be under way at a time. */
  readonly window: number;
}

export interface Reading {
  readonly topic: string;
  readonly payload: string;
  /** Which of the connections publishes it. */
  readonly connection: number;
}

/** Which probe measured at what time: enough to find the row. */
export interface RowName {
  readonly site: string;
  readonly probe: string;
  readonly time: number;
}

export const bedId = (bed: number): string => `pit-${bed}`;
export const probeId = (index: number): string => `p${String(index).padStart(4, '0')}`;

/** The probe numbered 0 stands in the shade. */
export const probesOf = ({ beds, probesPerBed }: Load): number => beds * probesPerBed + 1;

/** A site description as `sandlarder load` takes it. */
export function siteOf(load: Load): unknown {
  const from = new Date(START_ms).toISOString();
  const inBeds = Array.from({ length: probesOf(load) - 1 }, (_, index) => {
    const place = index % load.probesPerBed;
    const bed = bedId(Math.floor(index / load.probesPerBed));
    return {
      id: probeId(index + 1),
      placements: [{ bed, x: 10 + place * 10, y: 30, depth: 30, from }],
    };
  });
  return {
    version: 1,
    site: { id: SITE, name: 'Bench site', timezone: 'Africa/Lusaka' },
    beds: Array.from({ length: load.beds }, (_, bed) => ({
      id: bedId(bed),
      name: `Pit ${bed}`,
      kind: 'box',
      steps: [{ length: 300, width: 60, height: 60 }],
    })),
    probes: [{ id: probeId(0), placements: [{ ambient: true, from }] }, ...inBeds],
  };
}

/**
 * Rounds that the shade is ahead of the beds. Months pass here in seconds, and connections drift apart by as much as
 * a window holds: without this the shade would come hours late by event time, as it does not in a shed.
 */
const shadeAhead = (load: Load): number => Math.ceil(load.window / probesOf(load)) + 1;

function measuredAt(load: Load, index: number): { probe: number; round: number; time_s: number } {
  const probes = probesOf(load);
  const probe = index % probes;
  const round = Math.floor(index / probes) + (probe === 0 ? shadeAhead(load) : 0);
  return { probe, round, time_s: START_ms / 1000 + round * EVERY_s };
}

function valuesAt(probe: number, round: number): Values {
  const swing_C = probe === 0 ? 5 * Math.sin((2 * Math.PI * round) / 144) : 0.1 * Math.sin(probe + round * 7);
  return {
    temperature_C: Number((20 + Math.sin(round / 500) + swing_C).toFixed(2)),
    humidity_RH: Number((86 + Math.sin(probe + round / 40)).toFixed(1)),
  };
}

/** One message of the load: three records, about 143 bytes, of sound beds that follow a changing shade. */
export function readingAt(load: Load, index: number): Reading {
  const { probe, round, time_s } = measuredAt(load, index);
  const { temperature_C, humidity_RH } = valuesAt(probe, round);
  const id = probeId(probe);
  return {
    topic: `sandlarder/v1/${SITE}/probes/${id}/readings`,
    payload: `[{"bn":"urn:dev:ops:${id}/","bt":${time_s},"n":"temperature","u":"Cel","v":${temperature_C}},{"n":"humidity","u":"%RH","v":${humidity_RH}},{"n":"battery","u":"V","v":3.05}]`,
    connection: probe === 0 ? 0 : Math.floor((probe - 1) / load.probesPerBed) % load.connections,
  };
}

/** Some rounds of one probe in one pack, as it sends them after an outage; each round is a row. */
export function packAt(probe: number, fromRound: number, rounds: number): Omit<Reading, 'connection'> {
  const measured = Array.from({ length: rounds }, (_, at) => {
    const round = fromRound + at;
    return { ...valuesAt(probe, round), time_s: START_ms / 1000 + round * EVERY_s };
  });
  return { topic: `sandlarder/v1/${SITE}/probes/${probeId(probe)}/readings`, payload: packOf(measured) };
}

export interface Values {
  readonly temperature_C: number;
  readonly humidity_RH: number;
}

/** Several times of one probe in one pack. */
export const packOf = (measured: readonly (Values & { readonly time_s: number })[]): string =>
  JSON.stringify(
    measured.flatMap(({ time_s, temperature_C, humidity_RH }) => [
      { bt: time_s, n: 'temperature', u: 'Cel', v: temperature_C },
      { n: 'humidity', u: '%RH', v: humidity_RH },
    ]),
  );

/** Event time of a round of the load. */
export const timeOfRound = (round: number): string =>
  new Date(START_ms + round * EVERY_s * 1000).toISOString();

/** The row that the message at an index becomes. */
export function rowAt(load: Load, index: number): RowName {
  const { probe, time_s } = measuredAt(load, index);
  return { site: SITE, probe: probeId(probe), time: time_s * 1000 };
}
