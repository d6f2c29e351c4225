/** How a certificate's page looks: black on white, on a screen as on paper. */
export const CERTIFICATE_STYLE = `
@page { size: A4; margin: 15mm 14mm; }
* { box-sizing: border-box; }
body { margin: 0; background: #fff; color: #000; font: 10.5pt/1.4 Helvetica, Arial, sans-serif; }
main, footer { max-width: 190mm; margin: 0 auto; padding: 0 4mm; }
h1 { font-size: 17pt; line-height: 1.2; margin: 8mm 0 3mm; }
h2 { font-size: 12pt; margin: 6mm 0 1.5mm; border-bottom: 1px solid #000; break-after: avoid; }
p { margin: 0 0 2mm; }
.note, figcaption, caption, footer { font-size: 9pt; }
.warning { border: 2px solid #000; padding: 2mm 3mm; }
.wide { overflow-x: auto; }
table { width: 100%; border-collapse: collapse; margin: 0 0 3mm; font-size: 8.5pt; }
table.rows { font-size: 10pt; }
caption { text-align: left; padding: 1mm 0; break-after: avoid; }
th, td { padding: 1mm 1.2mm; text-align: left; vertical-align: top; border-bottom: 1px solid #767676; overflow-wrap: anywhere; }
thead th, thead td { vertical-align: bottom; border-bottom: 1px solid #000; hyphens: manual; overflow-wrap: normal; }
.rows th { width: 32%; font-weight: normal; color: #333; }
.number { text-align: right; font-variant-numeric: tabular-nums; overflow-wrap: normal; }
thead { display: table-header-group; }
tr, figure { break-inside: avoid; }
tbody tr:nth-child(-n + 2) { break-before: avoid; }
figure { margin: 3mm 0; }
svg { display: block; max-width: 100%; height: auto; }
footer { margin-top: 6mm; margin-bottom: 6mm; }
@media screen { .wide table:not(.few) { min-width: 165mm; } }
/* On a phone a plot that shrank could not be read. */
@media screen and (max-width: 165mm) { figure svg { max-width: none; } }
@media print {
  main, footer { max-width: none; padding: 0; }
  h1 { margin-top: 0; }
  .wide { overflow: visible; }
  .compact { font-size: 9pt; line-height: 1.25; }
  .compact h1 { font-size: 15pt; margin-bottom: 2mm; }
  .compact h2 { font-size: 11pt; margin: 3mm 0 1mm; }
  .compact p { margin-bottom: 1mm; }
  .compact table { font-size: 7.5pt; margin-bottom: 2mm; }
  .compact table.rows { font-size: 8.5pt; }
  .compact th, .compact td { padding: .6mm 1.2mm; }
  .compact .note, .compact caption, .compact footer { font-size: 8pt; }
  .compact footer { margin: 2mm 0 0; }
}
`;
