/** Records of calibrations, made up: no probe, place or person of these names is known. */
import { type FitOptions, fitCalibration } from '../../services/core/calibration/index.js';
import type { CalibrationPoint } from '../../services/core/model/calibration.js';
import type { Calibration } from '../../services/core/model/calibration-record.js';
import { DAY_ms, MINUTE_ms } from '../../services/core/model/time.js';

/** 2026-03-14T09:00:00Z. */
export const CALIBRATED_AT = 1_773_478_800_000;

/** What the probe showed, and how far the bench scattered about the true correction, °C. */
const INDICATED = [4.12, 9.37, 14.69, 19.87, 25.06, 30.31, 35.5] as const;
const NOISE = [0.008, -0.013, 0.009, -0.006, 0.011, -0.014, 0.006] as const;

/** One point of a bath beside the reference; frozen. */
const inBath = (indicated: number, noise: number, nth: number): CalibrationPoint =>
  Object.freeze({
    at: CALIBRATED_AT - (7 - nth) * 25 * MINUTE_ms,
    indicated,
    indicatedScatter: 0.03,
    indicatedCount: 12,
    reference: Number((indicated + 0.31 - 0.012 * (indicated - 20) + noise).toFixed(3)),
    referenceUncertainty: 0.04,
    source: 'instrument',
  });

/** Seven points beside an instrument. */
export const BATH_POINTS: readonly CalibrationPoint[] = Object.freeze(
  INDICATED.map((indicated, nth) => inBath(indicated, NOISE[nth] ?? 0, nth)),
);

/** Over two salts, twice each. */
export const SALT_POINTS: readonly CalibrationPoint[] = Object.freeze(
  (
    [
      ['magnesium chloride', 36.1, 32.8, 0.5],
      ['magnesium chloride', 35.7, 32.8, 0.5],
      ['sodium chloride', 77.4, 75.3, 0.5],
      ['sodium chloride', 77.9, 75.3, 0.5],
    ] as const
  ).map(([label, indicated, reference, referenceUncertainty]) =>
    Object.freeze({
      at: CALIBRATED_AT,
      indicated,
      reference,
      referenceUncertainty,
      temperature_C: 25,
      source: 'salt' as const,
      label,
    }),
  ),
);

/** A record of a fit to these points; what is not given is as usual. */
export function calibrationFrom(
  points: readonly CalibrationPoint[],
  options: FitOptions,
  overrides: Partial<Calibration> = {},
): Calibration {
  return Object.freeze({
    id: 'cal-2026-0007',
    site: 'hill-store',
    probe: 'probe-17',
    quantity: options.quantity,
    from: CALIBRATED_AT - 10 * DAY_ms,
    doneAt: CALIBRATED_AT,
    by: 'Wanja Oduya',
    reference: Object.freeze({
      name: 'Platinum thermometer of the station',
      serial: 'RT-0042',
      calibratedBy: 'Lake Metrology Desk',
      certificate: 'LMD 25-118',
      calibratedOn: '2025-09-02',
      dueOn: '2026-09-02',
    }),
    conditions: Object.freeze({ temperature_C: 23.5, humidity_RH: 61, pressure_hPa: 884 }),
    points,
    fit: Object.freeze(fitCalibration(points, options)),
    asFound: Object.freeze({
      largest: -0.497,
      standardUncertainty: 0.043,
      indicated: 4.12,
      tolerance: 0.5,
      exceeds: false,
      certain: false,
    }),
    change: Object.freeze({ change: 0.214, standardUncertainty: 0.058, indicated: 35.5 }),
    before: 'cal-2025-0003',
    supersedes: null,
    bench: 'bench-31',
    ...overrides,
  });
}

/** Seven points beside an instrument, offset and gain, resolution 0.0625 °C. */
export const someCalibration = (overrides: Partial<Calibration> = {}): Calibration =>
  calibrationFrom(BATH_POINTS, { quantity: 'temperature', resolution: 0.0625 }, overrides);

/** The same with a point that lies outside, nr 3, and one left out, nr 6, whose residual is so large, °C. */
export function unevenCalibration(leftOutBy = 0.3): Calibration {
  const shifts: Readonly<Record<number, number>> = { 2: 0.2, 5: leftOutBy };
  const points = BATH_POINTS.map((point, index) =>
    Object.freeze({ ...point, reference: point.reference + (shifts[index] ?? 0) }),
  );
  return calibrationFrom(Object.freeze(points), {
    quantity: 'temperature',
    form: 'linear',
    resolution: 0.0625,
    leaveOut: [{ index: 5, reason: 'The bath was opened while it was read.' }],
  });
}

/** Four points over salts, weighted; the first calibration of its probe. */
export function saltCalibration(overrides: Partial<Calibration> = {}): Calibration {
  const { change: _, ...first } = calibrationFrom(
    SALT_POINTS,
    { quantity: 'humidity' },
    {
      before: null,
      reference: Object.freeze({ name: 'Saturated salts in closed jars' }),
      asFound: Object.freeze({
        largest: 3.3,
        standardUncertainty: 0.5,
        indicated: 36.1,
        tolerance: 2,
        exceeds: true,
        certain: true,
      }),
    },
  );
  return Object.freeze({ ...first, ...overrides });
}

/** What a certificate tells beside its record. */
export const ABOUT = Object.freeze({
  siteName: 'Store on the hill',
  probeModel: 'twin probe, second make',
  timeZone: 'Africa/Nairobi',
  issuedAt: CALIBRATED_AT + DAY_ms,
  program: 'Sandlarder 0.1.0',
  supersededBy: null,
  inForce: true,
});
