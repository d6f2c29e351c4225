/**
 * What travels with the rows: a Table Schema, a Data Package (Frictionless, Data Package Standard 2.0) and a text by
 * which to cite them. None of it says when it was exported: the same selection gives the same bytes.
 */
import { COLUMNS, PRIMARY_KEY } from './columns.js';

export type ExportFormat = 'csv' | 'parquet';

/** What was asked for, in words that others can read. */
export interface Described {
  /** Names as the site descriptions have them. */
  readonly sites: readonly { readonly id: string; readonly name: string }[];
  readonly beds: readonly { readonly id: string; readonly name: string }[];
  readonly trial: string | null;
  /** RFC 3339; null for everything there is on that side. */
  readonly from: string | null;
  readonly to: string | null;
  readonly hasShade: boolean;
  readonly quantities: readonly string[];
  /** Program and version. */
  readonly program: string;
}

/** Names of the files; the rows end in the format. */
export const FILES = {
  schema: 'readings.schema.json',
  package: 'datapackage.json',
  calibrations: 'calibrations.json',
  citation: 'citation.txt',
} as const;

export const rowsFile = (format: ExportFormat): string => `readings.${format}`;

const PROFILES = 'https://datapackage.org/profiles/2.0';

const MEDIA: Readonly<Record<ExportFormat, string>> = {
  csv: 'text/csv',
  parquet: 'application/vnd.apache.parquet',
};

/** The columns as a Table Schema. */
export const tableSchema = () => ({
  $schema: `${PROFILES}/tableschema.json`,
  fields: COLUMNS.map(({ name, type, title, description, isRequired, oneOf }) => ({
    ...{ name, type, title, description },
    ...((isRequired || oneOf) && {
      constraints: { ...(isRequired && { required: true }), ...(oneOf && { enum: [...oneOf] }) },
    }),
  })),
  missingValues: [''],
  primaryKey: [...PRIMARY_KEY],
});

const list = (things: readonly { readonly id: string; readonly name: string }[]): string =>
  things.map(({ id, name }) => `${name} (${id})`).join(', ');

export const titleOf = ({ sites, beds }: Described): string =>
  `${sites.map(({ name }) => name).join(', ')}: readings of ${beds.length === 1 ? 'one bed' : `${beds.length} beds`} of stored sweet potato roots`;

/** The selection, a line each. */
export const selectionLines = ({
  sites,
  beds,
  trial,
  from,
  to,
  hasShade,
  quantities,
}: Described): string[] => [
  `Site: ${list(sites)}`,
  ...(trial === null ? [] : [`Trial: ${trial}`]),
  `Beds: ${list(beds)}${hasShade ? ', and the shade outside' : ''}`,
  `From: ${from ?? 'the first reading'}`,
  `To: ${to ?? 'the last reading'}${to === null ? '' : ' (not included)'}`,
  `Quantities: ${quantities.join(', ')}`,
];

/** Size and digest of the rows, once they are written. */
export interface Written {
  readonly bytes: number;
  /** SHA-256, hexadecimal. */
  readonly digest: string;
}

export function dataPackage(described: Described, format: ExportFormat, written?: Written) {
  const [first] = described.sites;
  return {
    $schema: `${PROFILES}/datapackage.json`,
    name: `${first?.id ?? 'site'}-readings`,
    title: titleOf(described),
    description: [
      ...selectionLines(described),
      `Exported by ${described.program}. The licence is to be chosen by the owner of the data; it then belongs into "licenses".`,
    ].join('\n'),
    resources: [
      {
        ...{ name: 'readings', type: 'table', path: rowsFile(format), title: 'Readings' },
        description: 'One row for each probe, time and quantity',
        ...{ format, mediatype: MEDIA[format], ...(format === 'csv' && { encoding: 'utf-8' }) },
        ...(written && { bytes: written.bytes, hash: `sha256:${written.digest}` }),
        ...(format === 'csv' && {
          dialect: {
            delimiter: ',',
            lineTerminator: '\r\n',
            quoteChar: '"',
            doubleQuote: true,
            header: true,
          },
        }),
        schema: tableSchema(),
      },
      {
        ...{ name: 'calibrations', path: FILES.calibrations, title: 'Calibrations of the probes' },
        ...{ format: 'json', mediatype: 'application/json', encoding: 'utf-8' },
      },
      {
        ...{ name: 'citation', path: FILES.citation, title: 'How to cite' },
        ...{ format: 'txt', mediatype: 'text/plain', encoding: 'utf-8' },
      },
    ],
  };
}

/** A text and no CITATION.cff: that would have to name authors, and none are known. */
export const citation = (described: Described, written?: Written): string =>
  [
    titleOf(described),
    '',
    ...selectionLines(described),
    `Exported by: ${described.program}`,
    ...(written ? [`SHA-256 of the readings: ${written.digest}`] : []),
    '',
    'Authors: to be named by the owner of the data.',
    'Licence: to be chosen by the owner of the data; until then nobody else has one.',
    '',
    'To cite it:',
    `[authors] ([year]). ${titleOf(described)}, ${described.from ?? 'from the first reading'} to ${described.to ?? 'the last reading'}. Data set, exported by ${described.program}. [where it can be had]`,
    '',
    'When it was exported does not stand in these files, so that the same selection of the same readings gives the same',
    'bytes; the date of the files says it. Corrected values follow the calibrations beside them: a calibration that is',
    'entered later changes them.',
    '',
  ].join('\n');
