/** What is done to beds and happens to probes in seasons for evaluation. */
import type { EvaluationBed } from './evaluation-beds.js';
import type { DrawnSeason } from './evaluation-season.js';
import type { ScenarioInput } from './scenario.js';

type Openings = NonNullable<EvaluationBed['openings']>;
type Faults = NonNullable<ScenarioInput['faults']>;
type ProbeFaults = NonNullable<Faults['probes']>;
type Outages = NonNullable<Faults['outages']>;

/** Days between two openings and before the first, at the least. */
const BETWEEN_OPENINGS_days = 12;

/** Two or three times in the season somebody opens the bed in the daytime. */
export function drawOpenings({ draws, days, bed }: DrawnSeason, told: boolean): Openings {
  const count = draws.whole('openings', 2, 3);
  const bottom = bed.steps.reduce((sum, { height }) => sum + height, 0);
  const stretch = (days - 2 * BETWEEN_OPENINGS_days) / count;
  return Array.from({ length: count }, (_, at) => {
    const from = BETWEEN_OPENINGS_days + at * stretch;
    const date = Math.floor(
      draws.between(`opening ${at} date`, from, from + stretch - BETWEEN_OPENINGS_days / 2),
    );
    return {
      day: date + draws.between(`opening ${at} hour`, 8, 15) / 24,
      hours: draws.between(`opening ${at} hours`, 0.5, 4),
      told,
      repacked: draws.chance(`opening ${at} repacked`, 0.3),
      sunWarmed_C: draws.between(`opening ${at} warmed`, 3, 12),
      depth: Math.min(bottom, draws.between(`opening ${at} depth`, 12, 45)),
      moved_cm: draws.between(`opening ${at} moved`, 0, 4),
    };
  });
}

/** Three to five faults, no two of one kind. */
export function drawFaults({ draws, days, bed }: DrawnSeason): ProbeFaults {
  const probes = draws.some('failing', bed.probes, bed.probes.length);
  const makers: ((span: { probe: string; startDay: number; days: number }) => ProbeFaults[number])[] = [
    (span) => ({
      kind: 'offset-step',
      ...span,
      C: draws.between('step', 0.8, 4) * (draws.chance('up', 0.7) ? 1 : -1),
    }),
    (span) => ({ kind: 'stuck', ...span }),
    (span) => ({
      kind: 'spikes',
      ...span,
      share: draws.between('spikes', 0.005, 0.05),
      size_C: draws.between('spike', 2, 20),
    }),
    (span) => ({
      kind: 'sensor-code',
      ...span,
      code: draws.pick('code', [85, -127] as const),
      share: draws.between('codes', 0.02, 0.5),
    }),
    (span) => ({ kind: 'noisy', ...span, sd_C: draws.between('noise', 0.3, 2) }),
    (span) => ({ kind: 'silent', ...span }),
    (span) => ({ kind: 'humidity-stuck-100', ...span }),
    (span) => ({ kind: 'humidity-creep', ...span, RH_per_day: draws.between('creep', 0.3, 1.5) }),
    (span) => ({ kind: 'clock-jump', ...span, seconds: Math.round(draws.between('clock', -5, 2) * 86_400) }),
    (span) => ({ kind: 'pulled', ...span }),
  ];
  return draws.some('faults', makers, draws.whole('how many faults', 3, 5)).map((make, at) =>
    make({
      probe: probes[at % probes.length]?.id ?? '',
      startDay: draws.between(`fault ${at} from`, 12, days - 20),
      days: draws.between(`fault ${at} length`, 3, 40),
    }),
  );
}

/** One long outage of the bed about when something begins, one of the shade, and one of the bed at any time. */
export function drawOutages({ draws, days }: DrawnSeason, bed: string, around: number): Outages {
  const length = (name: string): number => draws.between(`${name} outage`, 1.5, 5);
  return [
    { part: bed, fromDay: Math.max(0, around + draws.between('outage', -1, 6)), days: length('first') },
    { part: bed, fromDay: draws.between('other outage', 10, days - 10), days: length('other') },
    { part: 'shade', fromDay: draws.between('shade outage', 10, days - 10), days: length('shade') },
  ];
}
