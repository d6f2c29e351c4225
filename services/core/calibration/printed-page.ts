/** Sections of a document as HTML, for every page that is to be printed. */
import type {
  CertificateColumn,
  CertificateRow,
  CertificateSection,
  CertificateTable,
} from './certificate-document.js';
import { CERTIFICATE_STYLE } from './certificate-style.js';
import { escaped } from './markup.js';
import { plotSvg } from './plot-svg.js';

export interface PrintedPage {
  /** Of the window; the heading is the document's own. */
  readonly windowTitle: string;
  readonly title: string;
  readonly warnings?: readonly string[];
  readonly statement: readonly string[];
  readonly sections: readonly CertificateSection[];
  readonly footer: string;
  /** Whether it is set smaller on paper, so that it takes fewer pages. */
  readonly isCompact?: boolean;
}

/**
 * The whole page: no script, nothing from elsewhere.
 *
 * @param svg a drawn plot, markup that is taken as it is, for the section that has one
 */
export function printedPage(
  { windowTitle, title, warnings = [], statement, sections, footer, isCompact = false }: PrintedPage,
  svg = '',
): string {
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escaped(windowTitle)}</title>`,
    `<style>${CERTIFICATE_STYLE}</style>`,
    '</head>',
    isCompact ? '<body class="compact">' : '<body>',
    '<main>',
    `<h1>${escaped(title)}</h1>`,
    ...warnings.map((warning) => `<p class="warning"><strong>${escaped(warning)}</strong></p>`),
    ...statement.map((text) => `<p>${escaped(text)}</p>`),
    ...sections.flatMap((section, at) => sectionLines(section, svg, `figure-${at + 1}`)),
    '</main>',
    `<footer><p>${escaped(footer)}</p></footer>`,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

function sectionLines(
  { heading, rows, tables, hasPlot, figures = [], notes }: CertificateSection,
  svg: string,
  id: string,
): string[] {
  return [
    '<section>',
    `<h2>${escaped(heading)}</h2>`,
    ...(rows.length === 0 ? [] : ['<table class="rows"><tbody>', ...rows.map(rowLine), '</tbody></table>']),
    ...tables.flatMap(tableLines),
    ...(hasPlot ? figureLines(svg, 'Residuals over indicated values') : []),
    ...figures.flatMap(({ plot, caption }, at) => figureLines(plotSvg(plot, `${id}-${at + 1}`), caption)),
    ...notes.map((note) => `<p class="note">${escaped(note)}</p>`),
    '</section>',
  ];
}

const figureLines = (svg: string, caption: string): string[] => [
  ...['<figure>', wideStart(caption), svg, '</div>'],
  ...[`<figcaption>${escaped(caption)}</figcaption>`, '</figure>'],
];

/** What is wider than a phone scrolls by itself, by keys too [WCAG 2.1.1]. */
const wideStart = (name: string): string =>
  `<div class="wide" tabindex="0" role="group" aria-label="${escaped(name)}">`;

const rowLine = ([label, value]: CertificateRow): string =>
  `<tr><th scope="row">${escaped(label)}</th><td>${escaped(value)}</td></tr>`;

/** So many fit on the screen of a phone. */
const FEW_COLUMNS = 4;

function tableLines({ caption, columns, rows }: CertificateTable): string[] {
  const all = columns.reduce((sum, { share }) => sum + share, 0);
  const widths = columns.map(({ share }) => `<col style="width:${((100 * share) / all).toFixed(1)}%">`);
  return [
    `${wideStart(caption)}<table${columns.length > FEW_COLUMNS ? '' : ' class="few"'}>`,
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
