/** A mapping from a file, or from flags for a simple table. */
import { SandlarderError } from '../../core/errors.js';
import { readJsonFile } from '../../load.js';
import { type Mapping, readMapping } from '../../tables/import/index.js';

export interface MappingFlags {
  readonly map?: string;
  readonly site?: string;
  readonly probe?: string;
  readonly probeColumn?: string;
  readonly time?: readonly string[];
  readonly timeFormat?: string;
  readonly zone?: string;
  readonly repeated?: string;
  readonly skipped?: string;
  readonly value?: readonly string[];
  readonly separator?: string;
  readonly decimal?: string;
  readonly encoding?: string;
  readonly skip?: string;
  readonly header?: boolean;
  readonly missing?: readonly string[];
}

/** Flags by which a mapping may be given, besides `--map`. */
const OWN = [
  ...(['site', 'probe', 'probeColumn', 'time', 'timeFormat', 'zone', 'repeated', 'skipped'] as const),
  ...(['value', 'separator', 'decimal', 'encoding', 'skip', 'missing'] as const),
];

const flagOf = (key: string): string => `--${key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;

/** @throws SandlarderError WRONG_USAGE naming what was expected and what was there */
export function mappingOf(flags: MappingFlags): Mapping {
  const given =
    OWN.find((key) => flags[key] !== undefined) ?? (flags.header === false ? 'no-header' : undefined);
  if (flags.map === undefined) return readMapping('the mapping by flags', fromFlags(flags));
  if (given !== undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      `expected --map or a mapping by flags, got --map and ${flagOf(given)}`,
    );
  return readMapping(flags.map, jsonOf(flags.map));
}

function jsonOf(file: string): unknown {
  try {
    return readJsonFile(file);
  } catch (error) {
    throw new SandlarderError('WRONG_USAGE', (error as Error).message, { cause: error });
  }
}

/** What is not given is absent, so that the mapping's own usual value holds. */
const present = (values: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined));

function fromFlags(flags: MappingFlags): unknown {
  const { site, probe, probeColumn, time, timeFormat, zone, repeated, skipped } = flags;
  for (const [flag, value] of [
    ['--site', site],
    ['--time', time],
    ['--value', flags.value],
  ] as const)
    if (value === undefined)
      throw new SandlarderError(
        'WRONG_USAGE',
        `expected --map, or --site, --time and --value; got no ${flag}`,
      );
  if (probe !== undefined && probeColumn !== undefined)
    throw new SandlarderError('WRONG_USAGE', 'expected --probe or --probe-column, got both');
  return present({
    ...{ version: 1, site, encoding: flags.encoding, separator: flags.separator, decimal: flags.decimal },
    ...{ header: flags.header, missing: flags.missing, skip: flags.skip && Number(flags.skip) },
    probe: probeColumn === undefined ? probe : { column: probeColumn },
    time: present({ column: time, format: timeFormat, zone, repeated, skipped }),
    values: (flags.value ?? []).map(mappedValue),
  });
}

/** `COLUMN=quantity:unit`, or `COLUMN=quantity:unit:probe`. */
function mappedValue(text: string): unknown {
  const [, column, quantity, unit, probe] = /^(.+)=(\w+):([^:]+)(?::([^:]+))?$/.exec(text) ?? [];
  if (column === undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--value: expected COLUMN=QUANTITY:UNIT, such as "Temp=temperature:°C", or that with :PROBE, got ${JSON.stringify(text)}`,
    );
  return present({ column, quantity, unit, probe });
}
