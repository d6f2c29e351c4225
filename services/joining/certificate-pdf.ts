/** A certificate as a PDF file: the same text and the same plot as its page. */
import type { CertificateDocument } from '../core/calibration/certificate-document.js';
import type { PlotGeometry } from '../core/calibration/residual-plot.js';
import { printedPdf } from './printed-pdf.js';

/**
 * @param plot of the same record
 * @returns equal bytes for equal documents
 */
export function certificatePdf(document: CertificateDocument, plot: PlotGeometry): Promise<Buffer> {
  const { title, calibration, issued, program } = document;
  const foot = `Calibration ${calibration}. Issued ${issued} by ${program}.`;
  return printedPdf({ ...document, fileTitle: `${title} ${calibration}`, foot }, plot);
}
