/** A long table of six probes, and the site that knows them: what is imported, and what an export is read from. */
import { closeSync, openSync, writeSync } from 'node:fs';

export const PROBES = ['p01', 'p02', 'p03', 'p04', 'p05', 'p06'] as const;

const BEGIN = Date.UTC(2006, 0, 1);
const EVERY_ms = 600_000;

export const SITE = {
  version: 1,
  site: { id: 'bench-ridge', name: 'Bench ridge', timezone: 'Africa/Lusaka' },
  beds: [{ id: 'pit-b', name: 'Pit B', kind: 'box', steps: [{ length: 150, width: 100, height: 75 }] }],
  probes: PROBES.map((id, at) => ({
    id,
    placements: [{ bed: 'pit-b', x: 20 + 20 * at, y: 40, depth: 30, from: '2005-06-01T00:00:00Z' }],
  })),
};

export const MAPPING = {
  ...{ version: 1, site: 'bench-ridge', separator: ';', decimal: ',', probe: { column: 'Logger' } },
  time: { column: 'Date', format: 'dd.MM.yyyy HH:mm', zone: 'Africa/Lusaka' },
  values: [
    { column: 'T', quantity: 'temperature', unit: '°C' },
    { column: 'RH', quantity: 'humidity', unit: '%RH' },
  ],
};

export const timeOf = (line: number): number => BEGIN + Math.floor(line / PROBES.length) * EVERY_ms;
export const valuesOf = (line: number): [temperature: number, humidity: number] => [
  20 + ((line * 7919) % 47) / 10,
  80 + ((line * 7907) % 71) / 10,
];

const two = (value: number): string => String(value).padStart(2, '0');

function lineOf(line: number): string {
  const at = new Date(timeOf(line));
  const date = `${two(at.getUTCDate())}.${two(at.getUTCMonth() + 1)}.${at.getUTCFullYear()}`;
  const [temperature, humidity] = valuesOf(line).map((value) => value.toFixed(1).replace('.', ','));
  return `${date} ${two(at.getUTCHours())}:${two(at.getUTCMinutes())};${PROBES[line % PROBES.length]};${temperature};${humidity}\r\n`;
}

/** Lines that are put together before they are written. */
const LINES_TOGETHER = 10_000;

export function writeTable(file: string, lines: number): void {
  const open = openSync(file, 'w');
  writeSync(open, 'Date;Logger;T;RH\r\n');
  for (let from = 0; from < lines; from += LINES_TOGETHER) {
    const count = Math.min(LINES_TOGETHER, lines - from);
    writeSync(open, Array.from({ length: count }, (_, at) => lineOf(from + at)).join(''));
  }
  closeSync(open);
}
