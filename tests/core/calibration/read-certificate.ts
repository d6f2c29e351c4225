/** Parts of a certificate's document, by their names. */
import { certificateOf } from '../../../services/core/calibration/certificate.js';
import type {
  CertificateDocument,
  CertificateSection,
  CertificateTable,
} from '../../../services/core/calibration/certificate-document.js';
import type { Calibration } from '../../../services/core/model/calibration-record.js';
import { ABOUT } from '../../support/a-calibration.js';

export const of = (record: Calibration, about: Partial<typeof ABOUT> | object = {}): CertificateDocument =>
  certificateOf(record, { ...ABOUT, ...about });

export function sectionOf({ sections }: CertificateDocument, heading: string): CertificateSection {
  const found = sections.find((section) => section.heading.startsWith(heading));
  if (found === undefined) throw new Error(`no section ${heading}`);
  return found;
}

export const entryOf = (document: CertificateDocument, label: string): string | undefined =>
  document.sections.flatMap(({ rows }) => rows).find(([name]) => name === label)?.[1];

export function tableOf(document: CertificateDocument, caption: string): CertificateTable {
  const found = document.sections
    .flatMap(({ tables }) => tables)
    .find((table) => table.caption.startsWith(caption));
  if (found === undefined) throw new Error(`no table ${caption}`);
  return found;
}

/** Texts of a column, by its head. */
export function column(table: CertificateTable, head: string): (string | undefined)[] {
  const at = table.columns.findIndex((one) => one.head === head);
  return table.rows.map((row) => row[at]);
}

export const textOf = (document: CertificateDocument): string => JSON.stringify(document);
