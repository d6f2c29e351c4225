/** A certificate as its parts, before it is written as a page or a PDF file: all text is finished, none is marked up. */
import type { PlotGeometry } from './residual-plot.js';

export interface CertificateColumn {
  readonly head: string;
  readonly isNumber: boolean;
  /** Share of the table's width, against those of the other columns. */
  readonly share: number;
}

export interface CertificateTable {
  readonly caption: string;
  readonly columns: readonly CertificateColumn[];
  /** As many cells as columns. */
  readonly rows: readonly (readonly string[])[];
}

export type CertificateRow = readonly [label: string, value: string];

/** A drawn figure with its caption. */
export interface DocumentFigure {
  readonly plot: PlotGeometry;
  readonly caption: string;
}

export interface CertificateSection {
  readonly heading: string;
  readonly rows: readonly CertificateRow[];
  readonly tables: readonly CertificateTable[];
  /** The residual plot stands here, below the tables. */
  readonly hasPlot: boolean;
  /** Below the tables too; none where absent. */
  readonly figures?: readonly DocumentFigure[];
  readonly notes: readonly string[];
}

export interface CertificateDocument {
  readonly title: string;
  /** Identifier of the record. */
  readonly calibration: string;
  /** ms since the epoch. */
  readonly issuedAt: number;
  /** When it was issued, in words. */
  readonly issued: string;
  readonly program: string;
  /** What this is and what it is not. */
  readonly statement: readonly string[];
  /** What whoever reads it must know before they use it; most have none. */
  readonly warnings: readonly string[];
  readonly sections: readonly CertificateSection[];
}

/** What a certificate tells beside its record. */
export interface AboutCertificate {
  readonly siteName: string;
  readonly probeModel: string | null;
  /** IANA name of the site's zone; times are in UTC where there is none. */
  readonly timeZone: string | null;
  /** Wall clock at the issue, ms. */
  readonly issuedAt: number;
  /** Name and version of the program: `Sandlarder 0.1.0`. */
  readonly program: string;
  /** The record that stands in the place of this one. */
  readonly supersededBy: string | null;
  readonly inForce: boolean;
}

/** A section of what it is given; the rest is empty. */
export const section = (
  heading: string,
  parts: Partial<Omit<CertificateSection, 'heading'>>,
): CertificateSection => ({ heading, rows: [], tables: [], hasPlot: false, notes: [], ...parts });
