/** What a certificate tells of the probe, the people, the reference and the place. */
import type { CalibrationPoint, PointSource } from '../model/calibration.js';
import type { Calibration } from '../model/calibration-record.js';
import { benchCautions } from './bench-cautions.js';
import {
  type AboutCertificate,
  type CertificateRow,
  type CertificateSection,
  section,
} from './certificate-document.js';
import { entered, QUANTITY_WORDS, timeInWords } from './certificate-words.js';

export function identitySection(record: Calibration, about: AboutCertificate): CertificateSection {
  const { timeZone, siteName, probeModel, supersededBy, inForce } = about;
  const held =
    supersededBy !== null ? `superseded by ${supersededBy}` : inForce ? 'in force' : 'not in force';
  return section('What was calibrated', {
    rows: [
      ['Calibration', record.id],
      ['Probe', record.probe],
      ['Model of the probe', entered(probeModel ?? undefined)],
      ['Site', `${siteName} (${record.site})`],
      ['Quantity', QUANTITY_WORDS[record.quantity]],
      ['Done by', record.by],
      ['Done at', timeInWords(record.doneAt, timeZone)],
      ['Holds for readings from', timeInWords(record.from, timeZone)],
      ['At the time of issue', held],
      ['Points taken', record.bench === null ? 'elsewhere, and entered' : `in bench work ${record.bench}`],
    ],
  });
}

/** Sources whose reference is a property of what was made up, and not shown by an instrument. */
const FIXED_POINTS: readonly PointSource[] = ['ice-point', 'boiling-point', 'salt'];

export const isFixedPoint = ({ source }: CalibrationPoint): boolean => FIXED_POINTS.includes(source);

export function referenceSection({ reference, points }: Calibration): CertificateSection {
  const rows: CertificateRow[] = [
    ['Reference', reference.name],
    ['Serial number', entered(reference.serial)],
    ['Calibrated by', entered(reference.calibratedBy)],
    ['Certificate', entered(reference.certificate)],
    ['Calibrated on', entered(reference.calibratedOn)],
    ['Due on', entered(reference.dueOn)],
  ];
  if (reference.note !== undefined) rows.push(['Note', reference.note]);
  const notes = ['Traceability is as entered by the technician, not checked.'];
  if (points.some(isFixedPoint))
    notes.push(
      'Fixed points (melting ice, boiling water, saturated salts) have their values from the literature. They hold ' +
        'as far as the fixed point was made up well, which nobody has checked either.',
    );
  return section('Reference, as entered', { rows, notes });
}

export function conditionsSection({ conditions }: Calibration): CertificateSection {
  const rows: CertificateRow[] = [
    ['Air temperature', entered(conditions.temperature_C, ' °C')],
    ['Air humidity', entered(conditions.humidity_RH, ' %RH')],
    ['Air pressure', entered(conditions.pressure_hPa, ' hPa')],
  ];
  if (conditions.note !== undefined) rows.push(['Note', conditions.note]);
  return section('Conditions, as entered', { rows });
}

/** Cautions for whoever does it again; none where no salt stood on the bench. */
export const handlingSections = ({ points }: Calibration): CertificateSection[] =>
  points.some(({ source }) => source === 'salt')
    ? [section('Before this is done again with salts', { notes: benchCautions('salt') })]
    : [];
