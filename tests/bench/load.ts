/** What the benches publish: readings of many probes in many beds, ten minutes apart, and the site they belong to. */

export const START_ms = Date.UTC(2026, 4, 4);
const EVERY_s = 600;

export interface Load {
  readonly beds: number;
  readonly probesPerBed: number;
  readonly messages: number;
}

const SITE = 'bench-site';

const bedId = (bed: number): string => `pit-${bed}`;
const probeId = (index: number): string => `p${String(index).padStart(4, '0')}`;
const probeCount = ({ beds, probesPerBed }: Load): number => beds * probesPerBed + 1;

/** The last probe stands in the shade. */
export function siteOf(load: Load): unknown {
  const from = new Date(START_ms).toISOString();
  const inBeds = Array.from({ length: load.beds * load.probesPerBed }, (_, index) => ({
    id: probeId(index),
    placements: [
      {
        bed: bedId(Math.floor(index / load.probesPerBed)),
        x: 10 + (index % load.probesPerBed) * 10,
        y: 30,
        depth: 30,
        from,
      },
    ],
  }));
  return {
    version: 1,
    site: { id: SITE, name: 'Bench site', timezone: 'Africa/Lusaka' },
    beds: Array.from({ length: load.beds }, (_, bed) => ({
      id: bedId(bed),
      name: `Pit ${bed}`,
      kind: 'box',
      steps: [{ length: 300, width: 60, height: 60 }],
    })),
    probes: [...inBeds, { id: probeId(inBeds.length), placements: [{ ambient: true, from }] }],
  };
}

export interface Prepared {
  readonly topic: string;
  readonly payload: Buffer;
}

/** All messages in order of event time: three records each, about 143 bytes. */
export function prepare(load: Load): Prepared[] {
  const probes = probeCount(load);
  return Array.from({ length: load.messages }, (_, message) => {
    const probe = message % probes;
    const round = Math.floor(message / probes);
    const time = START_ms / 1000 + round * EVERY_s;
    const warmth = (20 + Math.sin(round / 23) + probe * 0.01).toFixed(2);
    const payload = `[{"bn":"urn:dev:ops:${probeId(probe)}/","bt":${time},"n":"temperature","u":"Cel","v":${warmth}},{"n":"humidity","u":"%RH","v":86.4},{"n":"battery","u":"V","v":3.05}]`;
    return {
      topic: `sandlarder/v1/${SITE}/probes/${probeId(probe)}/readings`,
      payload: Buffer.from(payload),
    };
  });
}
