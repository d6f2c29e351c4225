/** A season's report as one HTML page, to be read on a screen or printed on A4. */
import { printedPage } from '../calibration/printed-page.js';
import type { SeasonDocument } from './season-report.js';

/** The whole page. */
export function seasonReportPage({ title, statement, sections, issued, program }: SeasonDocument): string {
  return printedPage({
    windowTitle: title,
    title,
    statement,
    sections,
    isCompact: true,
    footer: `Issued ${issued} by ${program}.`,
  });
}
