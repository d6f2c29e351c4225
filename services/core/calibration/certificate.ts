/**
 * The certificate of a calibration, as a document: what was done, what came of it, and what it does not claim.
 *
 * The same record and the same `about` give the same document, letter for letter.
 */
import type { Calibration } from '../model/calibration-record.js';
import { budgetSection } from './certificate-budget.js';
import type { AboutCertificate, CertificateDocument } from './certificate-document.js';
import { fitSection, rangeSection } from './certificate-fit.js';
import { historySection } from './certificate-history.js';
import {
  conditionsSection,
  handlingSections,
  identitySection,
  isFixedPoint,
  referenceSection,
} from './certificate-particulars.js';
import { pointsSection } from './certificate-points.js';
import { dayInWords, timeInWords } from './certificate-words.js';

/**
 * Everything that a certificate says.
 *
 * @param record as it is kept
 * @throws SandlarderError OUT_OF_DOMAIN for a time zone that the runtime does not know, and a fit that speaks of
 * points that the record does not have
 */
export function certificateOf(record: Calibration, about: AboutCertificate): CertificateDocument {
  const { timeZone, issuedAt, program } = about;
  return {
    title: 'Certificate of a working calibration',
    calibration: record.id,
    issuedAt,
    issued: timeInWords(issuedAt, timeZone),
    program,
    statement: statementOf(program),
    warnings: warningsOf(record, about),
    sections: [
      identitySection(record, about),
      referenceSection(record),
      conditionsSection(record),
      pointsSection(record, timeZone),
      fitSection(record),
      budgetSection(record),
      rangeSection(record),
      historySection(record, about),
      ...handlingSections(record),
    ],
  };
}

const statementOf = (program: string): string[] => [
  `This is a working calibration, made with ${program} by whoever is named below. It is not an accredited ` +
    'calibration: nobody has assessed it under ISO/IEC 17025.',
  'Uncertainties are evaluated after JCGM 100:2008 (GUM). A standard uncertainty has k = 1; an expanded uncertainty U ' +
    'has k = 2, which covers about 95 % unless a note says otherwise. Entries made by hand are repeated as entered.',
];

function warningsOf(record: Calibration, { supersededBy, inForce, timeZone }: AboutCertificate): string[] {
  const { dueOn, calibratedBy, certificate } = record.reference;
  const warnings: string[] = [];
  if (supersededBy !== null)
    warnings.push(`Superseded: calibration ${supersededBy} stands in the place of this one. Do not use it.`);
  else if (!inForce) warnings.push('Not in force at the time of issue: no new reading is corrected by it.');
  if (dueOn !== undefined && dueOn < dayInWords(record.doneAt, timeZone))
    warnings.push(`The reference was due for its own calibration on ${dueOn}, before this one was done.`);
  if (calibratedBy === undefined && certificate === undefined && !record.points.every(isFixedPoint))
    warnings.push('Nothing was entered of how the reference is traceable.');
  return warnings;
}
