/** What a certificate tells of before and after: as found, as left, what changed, which record follows which. */
import type { AsFoundRecord, Calibration } from '../model/calibration-record.js';
import { COVERAGE_FACTOR } from './budget.js';
import {
  type AboutCertificate,
  type CertificateRow,
  type CertificateSection,
  section,
} from './certificate-document.js';
import { NONE, pointOf, withUnit } from './certificate-words.js';
import { signedText, uncertaintyText, valueText } from './rounding.js';

export function historySection(record: Calibration, { supersededBy }: AboutCertificate): CertificateSection {
  return section('As found, as left, and since last time', {
    rows: [
      ...asFoundRows(record),
      ['As left', asLeftText(record)],
      ['Change since last time', changeText(record)],
      ['Calibration in force before', record.before ?? 'none'],
      ['Stands in the place of', record.supersedes ?? 'none'],
      ['Superseded by', supersededBy ?? 'none at the time of issue'],
    ],
    notes: [
      record.before === null
        ? 'As found: what the probe showed less the reference, as it had no calibration before.'
        : 'As found: the value corrected by the calibration in force until then, less the reference.',
      'The probe itself was not adjusted: Sandlarder keeps what it showed and adds the correction.',
    ],
  });
}

function asFoundRows({ asFound, quantity }: Calibration): CertificateRow[] {
  const { largest, standardUncertainty, indicated, tolerance } = asFound;
  return [
    [
      'Largest error as found',
      `${withUnit(signedText(largest, standardUncertainty), quantity)}, standard uncertainty ${withUnit(uncertaintyText(standardUncertainty), quantity)}, at an indicated ${withUnit(valueText(indicated, standardUncertainty), quantity)}`,
    ],
    ['Tolerance', withUnit(String(tolerance), quantity)],
    ['Against the tolerance', verdictOf(asFound)],
  ];
}

function verdictOf({ exceeds, certain }: AsFoundRecord): string {
  const verdict = exceeds ? 'exceeded' : 'kept';
  return certain
    ? `${verdict}; the distance from it is more than the expanded uncertainty (k = 2)`
    : `${verdict}, but not for certain: the distance from it is within the expanded uncertainty (k = 2)`;
}

/** By the points that the correction was made from: it says how well it fits them, not how right it is. */
function asLeftText(record: Calibration): string {
  const { fit, quantity } = record;
  const largest = fit.residuals.reduce<(typeof fit.residuals)[number] | undefined>(
    (most, next) => (most !== undefined && Math.abs(most.residual) >= Math.abs(next.residual) ? most : next),
    undefined,
  );
  if (largest === undefined) return NONE;
  const uncertainty = pointOf(record, largest.index).referenceUncertainty;
  return `corrected, the points used lie within ${withUnit(valueText(Math.abs(largest.residual), uncertainty), quantity)} of their references; the correction was made from these same points`;
}

function changeText({ change, before, quantity }: Calibration): string {
  if (change === undefined)
    return before === null ? 'none: it is the first' : 'unknown: the two have no indicated value in common';
  const { change: size, standardUncertainty, indicated } = change;
  const expanded = COVERAGE_FACTOR * standardUncertainty;
  const seen = Math.abs(size) > expanded ? 'more than' : 'within';
  return `at most ${withUnit(signedText(size, standardUncertainty), quantity)} in the correction, at an indicated ${withUnit(valueText(indicated, standardUncertainty), quantity)}; standard uncertainty ${withUnit(uncertaintyText(standardUncertainty), quantity)}: ${seen} its expanded uncertainty (k = 2)`;
}
