/** A season's report as one HTML page: no script, nothing from elsewhere, to be read on a screen or printed on A4. */
import type {
  CertificateColumn,
  CertificateRow,
  CertificateSection,
  CertificateTable,
} from '../calibration/certificate-document.js';
import { CERTIFICATE_STYLE } from '../calibration/certificate-style.js';
import { escaped } from '../calibration/markup.js';
import type { SeasonDocument } from './season-report.js';

/** The whole page. */
export function seasonReportPage({ title, statement, sections, issued, program }: SeasonDocument): string {
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escaped(title)}</title>`,
    `<style>${CERTIFICATE_STYLE}</style>`,
    '</head>',
    '<body>',
    '<main>',
    `<h1>${escaped(title)}</h1>`,
    ...statement.map((text) => `<p>${escaped(text)}</p>`),
    ...sections.flatMap(sectionLines),
    '</main>',
    `<footer><p>${escaped(`Issued ${issued} by ${program}.`)}</p></footer>`,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

const sectionLines = ({ heading, rows, tables, notes }: CertificateSection): string[] => [
  '<section>',
  `<h2>${escaped(heading)}</h2>`,
  ...(rows.length === 0 ? [] : ['<table class="rows"><tbody>', ...rows.map(rowLine), '</tbody></table>']),
  ...tables.flatMap(tableLines),
  ...notes.map((note) => `<p class="note">${escaped(note)}</p>`),
  '</section>',
];

const rowLine = ([label, value]: CertificateRow): string =>
  `<tr><th scope="row">${escaped(label)}</th><td>${escaped(value)}</td></tr>`;

function tableLines({ caption, columns, rows }: CertificateTable): string[] {
  const all = columns.reduce((sum, { share }) => sum + share, 0);
  const widths = columns.map(({ share }) => `<col style="width:${((100 * share) / all).toFixed(1)}%">`);
  return [
    '<div class="wide"><table>',
    `<caption>${escaped(caption)}</caption>`,
    `<colgroup>${widths.join('')}</colgroup>`,
    `<thead><tr>${columns.map((column) => `<th scope="col"${classOf(column)}>${escaped(column.head)}</th>`).join('')}</tr></thead>`,
    '<tbody>',
    ...rows.map(
      (cells) =>
        `<tr>${cells.map((cell, at) => `<td${classOf(columns[at])}>${escaped(cell)}</td>`).join('')}</tr>`,
    ),
    '</tbody></table></div>',
  ];
}

const classOf = (column: CertificateColumn | undefined): string =>
  column?.isNumber === true ? ' class="number"' : '';
