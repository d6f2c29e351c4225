/** A season of one bed, or of several side by side, as its parts before it is written as a page. */
import type { CertificateSection } from '../calibration/certificate-document.js';
import { timeInWords } from '../calibration/certificate-words.js';
import { SandlarderError } from '../errors.js';
import { bedSections, SHOWN, type Shown } from './season-report-bed.js';
import { type BedSeason, seasonFigures } from './season-report-figures.js';
import { groupSections } from './season-report-group.js';

/** Beds side by side on a page, at the most. */
export const BEDS_MOST = 100;

export interface AboutSeason {
  readonly siteName: string;
  /** Name of the group; that of the bed where null. */
  readonly groupName: string | null;
  /** IANA name of the site's zone; UTC where null. */
  readonly timeZone: string | null;
  /** End of the report, ms. */
  readonly to: number;
  /** Wall clock at the issue, ms. */
  readonly issuedAt: number;
  /** Name and version of the program. */
  readonly program: string;
}

export interface SeasonDocument {
  readonly title: string;
  readonly statement: readonly string[];
  readonly sections: readonly CertificateSection[];
  readonly issued: string;
  /** ms. */
  readonly issuedAt: number;
  readonly program: string;
}

/**
 * The report.
 *
 * @param beds one for its own report, several for a comparison
 * @param shown rows of looks and alarms, for one bed
 * @throws SandlarderError TOO_FEW_SAMPLES for no bed, LIMIT_EXCEEDED for too many; OUT_OF_DOMAIN for an end before a
 * filling, looks that do not fit together, and an unknown zone
 */
export function seasonReport(
  beds: readonly BedSeason[],
  about: AboutSeason,
  shown: Shown = SHOWN[0] as Shown,
): SeasonDocument {
  const [first] = beds;
  if (first === undefined)
    throw new SandlarderError('TOO_FEW_SAMPLES', 'beds of a report: expected at least one, got none');
  if (!(beds.length <= BEDS_MOST))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `beds of a report: expected at most ${BEDS_MOST}, got ${beds.length}`,
    );
  const { siteName, groupName, timeZone, to, issuedAt, program } = about;
  const figures = beds.map((bed) => seasonFigures(bed, to));
  const [only] = figures;
  const isOne = figures.length === 1 && only !== undefined;
  return {
    title: `Season of ${groupName ?? (isOne ? first.name : `${beds.length} beds`)}`,
    statement: [
      `${siteName}, up to ${timeInWords(to, timeZone)}.`,
      'Roots are counted as they were written down; warmth is that of the probes, corrected by the calibration in force.',
    ],
    sections: isOne ? bedSections(only, timeZone, shown) : groupSections(figures, timeZone),
    issued: timeInWords(issuedAt, timeZone),
    issuedAt,
    program,
  };
}
