/** A certificate as one HTML page: no script, nothing from elsewhere, to be read on a screen or printed on A4. */
import type {
  CertificateColumn,
  CertificateDocument,
  CertificateRow,
  CertificateSection,
  CertificateTable,
} from './certificate-document.js';
import { CERTIFICATE_STYLE } from './certificate-style.js';
import { escaped } from './markup.js';

/**
 * The whole page.
 *
 * @param svg the drawn plot, markup that is taken as it is
 */
export function certificatePage(document: CertificateDocument, svg: string): string {
  const { title, calibration, program, issued, statement, warnings, sections } = document;
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escaped(`${title} ${calibration}`)}</title>`,
    `<style>${CERTIFICATE_STYLE}</style>`,
    '</head>',
    '<body>',
    '<main>',
    `<h1>${escaped(title)}</h1>`,
    ...warnings.map((warning) => `<p class="warning"><strong>${escaped(warning)}</strong></p>`),
    ...statement.map(paragraph),
    ...sections.flatMap((section) => sectionLines(section, svg)),
    '</main>',
    `<footer><p>${escaped(`Calibration ${calibration}. Issued ${issued} by ${program}.`)}</p></footer>`,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

const paragraph = (text: string): string => `<p>${escaped(text)}</p>`;

function sectionLines({ heading, rows, tables, hasPlot, notes }: CertificateSection, svg: string): string[] {
  return [
    '<section>',
    `<h2>${escaped(heading)}</h2>`,
    ...(rows.length === 0 ? [] : ['<table class="rows"><tbody>', ...rows.map(rowLine), '</tbody></table>']),
    ...tables.flatMap(tableLines),
    ...(hasPlot
      ? ['<figure>', svg, '<figcaption>Residuals over indicated values</figcaption>', '</figure>']
      : []),
    ...notes.map((note) => `<p class="note">${escaped(note)}</p>`),
    '</section>',
  ];
}

const rowLine = ([label, value]: CertificateRow): string =>
  `<tr><th scope="row">${escaped(label)}</th><td>${escaped(value)}</td></tr>`;

function tableLines({ caption, columns, rows }: CertificateTable): string[] {
  const all = columns.reduce((sum, { share }) => sum + share, 0);
  const widths = columns.map(({ share }) => `<col style="width:${((100 * share) / all).toFixed(1)}%">`);
  return [
    '<div class="wide"><table>',
    `<caption>${escaped(caption)}</caption>`,
    `<colgroup>${widths.join('')}</colgroup>`,
    `<thead><tr>${columns.map(headCell).join('')}</tr></thead>`,
    '<tbody>',
    ...rows.map((cells) => `<tr>${cells.map((cell, at) => dataCell(cell, columns[at])).join('')}</tr>`),
    '</tbody></table></div>',
  ];
}

/** A column of remarks has no head to be announced. */
const headCell = (column: CertificateColumn): string =>
  column.head === '' ? '<td></td>' : `<th scope="col"${classOf(column)}>${escaped(column.head)}</th>`;

const dataCell = (text: string, column: CertificateColumn | undefined): string =>
  `<td${classOf(column)}>${escaped(text)}</td>`;

const classOf = (column: CertificateColumn | undefined): string =>
  column?.isNumber === true ? ' class="number"' : '';
