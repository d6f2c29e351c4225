/** What the HTTP edge needs of the rest, in memory: one site of two beds, a few alarms, no clock. */
import { SandlarderError } from '../../services/core/errors.js';
import { type Plan, type PlanQuestion, planBed } from '../../services/core/keeping/index.js';
import type { Alarm } from '../../services/core/model/alarm.js';
import type { Inspection } from '../../services/core/model/inspection.js';
import type { Language } from '../../services/core/model/languages.js';
import { HOUR_ms } from '../../services/core/model/time.js';
import type {
  AlarmQuery,
  BedView,
  BenchPorts,
  CalibrationPorts,
  CoverageQuery,
  CoverageView,
  ExportPorts,
  Health,
  HttpPorts,
  InspectedView,
  LedgerPorts,
  PeoplePorts,
  ProbeView,
  ReadinessPorts,
  SandPorts,
  SeasonPorts,
  SeriesQuery,
  SitePorts,
  SwingView,
  TodayView,
  TrialPorts,
} from '../../services/http/ports.js';
import { accessInMemory } from './access.js';
import { HEALTH, NEWEST_ms } from './health.js';
import { LiveInMemory } from './live.js';

export { HEALTH, NEWEST_ms };

const found = <Thing>(what: string, id: string, thing: Thing | undefined): Thing => {
  if (thing === undefined)
    throw new SandlarderError('NOT_FOUND', `${what} ${JSON.stringify(id)} is not known`);
  return thing;
};

export function probe(id: string, latestAt: number | null): ProbeView {
  return {
    id,
    model: null,
    x: 75,
    y: 40,
    depth: 30,
    online: true,
    latest: latestAt === null ? null : { at: latestAt, temperature_C: 21.25, humidity_RH: 88 },
    expected_C: 19.5,
    band_C: 0.6,
    excess_C: 1.75,
  };
}

export function alarm(number: number, change: Partial<Alarm> = {}): Alarm {
  return {
    id: `alarm-${number}`,
    site: 'ridge-station',
    bed: 'pit-a',
    kind: 'heating',
    priority: 'high',
    action: 'unpack',
    subject: '',
    state: 'unacknowledged',
    raisedAt: NEWEST_ms + number * HOUR_ms,
    clearedAt: null,
    evidence: { probe: 'p01', excess_C: 1.8, rate_C_per_day: 0.6 },
    place: { x: 80, y: 35, depth: 40, radius: 15 },
    text: 'Pit A is heating: unpack today.',
    acknowledgement: null,
    ...change,
  };
}

const PIT_A: BedView = {
  site: 'ridge-station',
  timezone: 'Africa/Lusaka',
  bed: {
    id: 'pit-a',
    name: 'Pit A',
    kind: 'stepped-pit',
    steps: [
      { length: 150, width: 100, height: 25 },
      { length: 150, width: 60, height: 25 },
    ],
    filled: Date.UTC(2026, 4, 4, 8),
    roots: { count: 400, mass_kg: 110 },
    keeper: 'keeper-1',
  },
  probes: [probe('p01', NEWEST_ms), probe('p02', NEWEST_ms - HOUR_ms)],
  ...{ formerProbes: [{ id: 'p05', x: 75, y: 40, depth: 10, until: NEWEST_ms }], shade: ['p09'] },
  stands: 'unpack',
  standsSince: NEWEST_ms + HOUR_ms,
  rotLeft: null,
  rootsLeft: 380,
  basis: 'shade probe and neighbours',
  judgedTo: NEWEST_ms - 30 * 60_000,
  openAlarms: [alarm(1)],
  latestInspection: null,
};

const BOX_B: BedView = {
  site: 'ridge-station',
  timezone: 'Africa/Lusaka',
  bed: { id: 'box-b', name: 'Box B', kind: 'box', steps: [{ length: 80, width: 50, height: 40 }] },
  ...{ probes: [], formerProbes: [], shade: [] },
  stands: 'learning',
  standsSince: null,
  rotLeft: null,
  rootsLeft: null,
  basis: 'no readings yet',
  judgedTo: null,
  openAlarms: [],
  latestInspection: null,
};

/** Wall clock of the stand-in, ms: an inspection after it lies in the future. */
export const NOW_ms = NEWEST_ms + 24 * HOUR_ms;

/** The ports over a fixed set of beds and the alarms given, with what was asked of the series. */
export class PortsInMemory implements HttpPorts {
  readonly asked: SeriesQuery[] = [];
  readonly coverages: CoverageQuery[] = [];
  readonly inspections: Inspection[] = [];
  readonly #beds: readonly BedView[] = [PIT_A, BOX_B];
  readonly #alarms: Map<string, Alarm>;
  readonly #health: Health;

  constructor({ alarms = [alarm(3), alarm(2), alarm(1)], health = HEALTH } = {}) {
    this.#alarms = new Map(alarms.map((each) => [each.id, each]));
    this.#health = health;
  }

  readonly access = accessInMemory();
  readonly live = new LiveInMemory();
  readonly today = (language: Language): TodayView => ({
    ...{ at: NOW_ms, language, nativeReviewed: false, items: [] },
  });
  /** Their routes are tested over a real station. */
  readonly bench = {} as BenchPorts;
  readonly calibrations = {} as CalibrationPorts;
  readonly ledger = {} as LedgerPorts;
  readonly people = {} as PeoplePorts;
  readonly sand = {} as SandPorts;
  readonly alarm = {} as HttpPorts['alarm'];
  readonly placeSaid = {} as HttpPorts['placeSaid'];
  readonly alarmSaid: HttpPorts['alarmSaid'] = ({ text }) => ({ text, language: 'en', draft: false });
  readonly sites = {} as SitePorts;
  readonly plans: PlanQuestion[] = [];

  async plan(question: PlanQuestion): Promise<Plan> {
    this.plans.push(question);
    return planBed(question);
  }

  readonly readiness = {} as ReadinessPorts;
  readonly exports = {} as ExportPorts;
  readonly seasons = {} as SeasonPorts;
  readonly trials = {} as TrialPorts;

  health(): Health {
    return this.#health;
  }

  beds(): readonly BedView[] {
    return this.#beds;
  }

  bed(id: string): BedView {
    return found(
      'bed',
      id,
      this.#beds.find(({ bed }) => bed.id === id),
    );
  }

  series(bed: string, query: SeriesQuery) {
    this.asked.push(query);
    return this.bed(bed).probes.map(({ id, x, y, depth }) => ({
      probe: id,
      x,
      y,
      depth,
      time: [query.from, query.from + 1500],
      temperature_C: [21.25, null],
      temperatureUncertainty_C: [0.12, null],
      temperatureDoubt: ['outside' as const, null],
      humidity_RH: [null, 88],
      humidityUncertainty_RH: [null, null],
      humidityDoubt: [null, null],
      expected_C: [19.5, null],
      band_C: [0.6, null],
      hours: { time: [query.from], expected_C: [19.5], band_C: [0.6], excess_C: [1.75] },
      flagged:
        id === 'p02'
          ? [{ at: query.from, quantity: 'temperature', reason: 'sensor-code', value: 85 } as const]
          : [],
      thinned: true,
      readFrom: ['hours' as const, 'full-rate' as const],
    }));
  }

  async older() {
    return { probes: new Map(), note: null };
  }

  /** The routes of these are tested over a real station. */
  shadeSeries() {
    return [];
  }

  async swing(): Promise<SwingView> {
    throw new Error('not asked of the stand-in');
  }

  events() {
    return { events: [], more: false };
  }

  async coverage(bed: string, query: CoverageQuery): Promise<CoverageView> {
    this.coverages.push(query);
    const view = this.bed(bed);
    const spot = { x: 120.04, y: 20, depth: 12.5, radius: 29.96, share: 0.12345 };
    return {
      ...{ bed: view.bed, probes: view.probes.length, shade: true },
      coverage: {
        ...{ share: 0.41236, blindShare: 0.5, blindSpots: [spot, { ...spot, foundAfter_days: 10 }] },
        places: [{ x: 3, y: 3, depth: 3, volume_L: 5, chance: 0.98765 }],
      },
      ...(query.next && { next: view.probes.length > 0 ? { x: 75, y: 17, depth: 13, share: 0.5 } : null }),
    };
  }

  alarms({ bed, state, from, to, limit, after }: AlarmQuery) {
    const wanted = [...this.#alarms.values()].filter(
      (each) =>
        (bed === undefined || each.bed === bed) &&
        (state === undefined || each.state === state) &&
        (from === undefined || each.raisedAt >= from) &&
        (to === undefined || each.raisedAt < to),
    );
    const start = after === undefined ? 0 : wanted.findIndex(({ id }) => id === after) + 1;
    const alarms = wanted.slice(start, start + limit);
    return { alarms, more: start + limit < wanted.length };
  }

  cap(id: string): string {
    return `<alert><identifier>${found('alarm', id, this.#alarms.get(id)).id}</identifier></alert>`;
  }

  shelve(id: string, { by, hours }: { by: string; hours: number }): Alarm {
    const before = found('alarm', id, this.#alarms.get(id));
    const shelving = { by, at: NEWEST_ms, until: NEWEST_ms + hours * HOUR_ms };
    return { ...before, state: 'shelved', shelving };
  }

  acknowledge(id: string, { by, note }: { by: string; note: string }): Alarm {
    const before = found('alarm', id, this.#alarms.get(id));
    if (before.acknowledgement) return before;
    const after: Alarm = { ...before, state: 'acknowledged', acknowledgement: { by, note, at: NOW_ms } };
    this.#alarms.set(id, after);
    return after;
  }

  inspect(bed: string, body: Parameters<HttpPorts['inspect']>[1]): InspectedView {
    this.bed(bed);
    if (!(body.at <= NOW_ms)) throw new SandlarderError('CONFLICT', 'at must not lie in the future');
    const inspection = { ...body, id: `inspection-${this.inspections.length + 1}`, bed };
    this.inspections.push(inspection);
    const follows = { advice: [], cautions: [], alarms: [], ended: [], notes: [] };
    return { inspection, isNew: true, judged: true, left: null, ...follows };
  }

  unknownProbes() {
    return [
      { site: 'ridge-station', probe: 'p77', readings: 12, firstAt: NEWEST_ms - HOUR_ms, lastAt: NEWEST_ms },
    ];
  }

  quarantine(limit: number) {
    const entry = {
      reason: 'not-json',
      topic: 'sandlarder/v1/ridge-station/probes/p01/readings',
      detail: 'payload must be JSON',
      payload: Buffer.from('{').toString('base64'),
      count: 3,
      firstAt: NEWEST_ms,
      lastAt: NEWEST_ms,
    };
    return Array.from({ length: 60 }, () => entry).slice(0, limit);
  }

  async metrics() {
    return { text: '# EOF\n', contentType: 'application/openmetrics-text; version=1.0.0; charset=utf-8' };
  }
}
