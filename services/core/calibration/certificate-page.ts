/** A certificate as one HTML page, to be read on a screen or printed on A4. */
import type { CertificateDocument } from './certificate-document.js';
import { printedPage } from './printed-page.js';

/**
 * The whole page.
 *
 * @param svg the drawn plot, markup that is taken as it is
 */
export function certificatePage(document: CertificateDocument, svg: string): string {
  const { title, calibration, program, issued, statement, warnings, sections } = document;
  const footer = `Calibration ${calibration}. Issued ${issued} by ${program}.`;
  return printedPage(
    { windowTitle: `${title} ${calibration}`, title, warnings, statement, sections, footer },
    svg,
  );
}
