/** Whether the probes of a bed can be relied on once sand and roots lie on them. */
import type { CalibratedQuantity } from '../model/calibration.js';
import { DAY_ms, HOUR_ms } from '../model/time.js';
import { type Answer, type ReadinessItem, withLimits } from './readiness-item.js';
import { type LimitsInForce, ownLimit, watchLimit } from './readiness-limits.js';
import type { ProbeInputs, ReadinessProbe } from './readiness-worst.js';

/** Items of the probes themselves. */
export function itemsOfProbes({ at, probes }: ProbeInputs, limits: LimitsInForce): ReadinessItem[] {
  const silent = probes.filter(
    ({ lastHeardAt }) => !(lastHeardAt !== null && at - lastHeardAt <= limits.own.probe_heard_h * HOUR_ms),
  );
  const due = probes.filter((probe) => !isCalibrated(probe, at, limits));
  const answer = (failing: readonly ReadinessProbe[], word: string): Answer => {
    if (probes.length === 0) return { measure: 'the bed has no probe', state: 'not met' };
    const names = failing.map(({ id }) => id).join(', ');
    return failing.length === 0
      ? { measure: `all ${probes.length}`, state: 'met' }
      : { measure: `${word}: ${names}`, state: 'not met' };
  };
  return [
    withLimits(
      {
        id: 'probes-speaking',
        question: 'Do all probes of the bed speak?',
        limit: `heard within ${limits.own.probe_heard_h} h`,
        reason: 'a probe that is silent now is hard to reach once roots and sand lie on it',
        answeredBy: 'probe',
      },
      [ownLimit('probe_heard_h', limits)],
      answer(silent, 'silent'),
    ),
    withLimits(
      {
        id: 'probes-calibrated',
        question: 'Are all probes of the bed calibrated?',
        limit: `${limits.watch.calibrate_temperature_days} days for temperature, ${limits.watch.calibrate_humidity_days} for humidity`,
        reason: 'rot shows by half a degree, and a probe cannot be taken out to a bench later',
        answeredBy: 'probe',
      },
      [watchLimit('calibrate_temperature_days', limits), watchLimit('calibrate_humidity_days', limits)],
      answer(due, 'never or too long ago'),
    ),
  ];
}

function isCalibrated({ calibratedAt }: ReadinessProbe, at: number, { watch }: LimitsInForce): boolean {
  const days = { temperature: watch.calibrate_temperature_days, humidity: watch.calibrate_humidity_days };
  const entries = Object.entries(calibratedAt) as [CalibratedQuantity, number | null | undefined][];
  const measured = entries.filter(([, madeAt]) => madeAt !== undefined);
  return (
    measured.length > 0 &&
    measured.every(
      ([quantity, madeAt]) =>
        typeof madeAt === 'number' && madeAt <= at && at - madeAt <= days[quantity] * DAY_ms,
    )
  );
}
