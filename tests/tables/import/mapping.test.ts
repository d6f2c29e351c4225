import { describe, expect, test } from 'vitest';
import { type MappingFlags, mappingOf } from '../../../services/commands/import/mapping-flags.js';
import { readMapping } from '../../../services/tables/import/mapping.js';

const time = { column: 'Time' };
const warm = { column: 'T', quantity: 'temperature', unit: '°C' } as const;
const SOUND = { version: 1, site: 'ridge', probe: 'p01', time, values: [warm] };

const problemOf = (json: unknown): string => {
  try {
    readMapping('map.json', json);
    return 'none';
  } catch (error) {
    return (error as Error).message;
  }
};

describe('a mapping', () => {
  test('has its usual values', () => {
    expect(readMapping('map.json', SOUND)).toEqual({
      ...{ version: 1, site: 'ridge', probe: 'p01', encoding: 'utf-8', decimal: '.', skip: 0, header: true },
      time: { column: ['Time'], format: 'iso', repeated: 'refuse', skipped: 'refuse' },
      ...{ values: [warm], missing: [] },
    });
  });

  test.each([
    ['no object', null, 'map.json'],
    ['another version', { ...SOUND, version: 2 }, 'version'],
    ['a key it does not know', { ...SOUND, seperator: ',' }, 'seperator'],
    ['a site that is no id', { ...SOUND, site: 'Ridge Station' }, 'site'],
    ['no values', { ...SOUND, values: [] }, 'values'],
    ['a unit that is none', { ...SOUND, values: [{ ...warm, unit: 'C' }] }, 'unit'],
    [
      'a unit of another quantity',
      { ...SOUND, values: [{ ...warm, unit: '%RH' }] },
      'expected °C or °F or K for temperature, got %RH',
    ],
    ['no probe at all', { ...SOUND, probe: undefined }, 'expected the id of a probe here'],
    ['probes twice', { ...SOUND, probe: { column: 'P' }, values: [{ ...warm, probe: 'p01' }] }, 'got both'],
    [
      'a quantity twice',
      { ...SOUND, values: [warm, { ...warm, column: 'T2' }] },
      'expected each quantity of a probe once',
    ],
    ['a name that is no id', { ...SOUND, probe: { column: 'P', names: { A: 'Logger A' } } }, 'probe'],
    ['three columns of time', { ...SOUND, time: { column: ['a', 'b', 'c'] } }, 'time.column'],
    [
      'a zone that is none',
      { ...SOUND, time: { ...time, zone: 'Africa/Atlantis' } },
      'expected an IANA time zone',
    ],
    ['a pattern without a zone', { ...SOUND, time: { ...time, format: 'dd/MM/yyyy HH:mm' } }, 'time.zone'],
    [
      'a pattern by the language',
      { ...SOUND, time: { ...time, format: 'f', zone: '+02:00' } },
      'time.format',
    ],
    ['no header and no separator', { ...SOUND, header: false }, 'separator'],
  ])('with %s is refused', (_what, json, part) => {
    expect(problemOf(json)).toContain(part);
    expect(problemOf(json)).toContain('map.json');
  });

  test('volts and per cent of a battery are two quantities', () => {
    const battery = { column: 'B', quantity: 'battery' };
    const values = [
      { ...battery, unit: 'V' },
      { ...battery, column: 'L', unit: '%EL' },
    ];
    expect(problemOf({ ...SOUND, values })).toBe('none');
  });
});

describe('a mapping by flags', () => {
  const FLAGS: MappingFlags = { site: 'ridge', probe: 'p01', time: ['Time'], value: ['T=temperature:°C'] };

  test('is the same as one in a file', () => {
    expect(mappingOf(FLAGS)).toEqual(readMapping('map.json', SOUND));
  });

  test('may have date and clock apart, probes in a column, and no header', () => {
    const flags = {
      ...{ ...FLAGS, probe: undefined, probeColumn: '#3', time: ['#1', '#2'], value: ['#4=humidity:ratio'] },
      ...{
        timeFormat: 'dd/MM/yyyy HH:mm',
        zone: '+02:00',
        header: false,
        separator: ';',
        decimal: ',',
        skip: '2',
      },
    } as unknown as MappingFlags;
    expect(mappingOf(flags)).toMatchObject({
      ...{ probe: { column: '#3' }, header: false, skip: 2 },
      time: { column: ['#1', '#2'], format: 'dd/MM/yyyy HH:mm' },
      values: [{ column: '#4', quantity: 'humidity', unit: 'ratio' }],
    });
  });

  test.each([
    [{}, 'got no --site'],
    [{ ...FLAGS, time: undefined }, 'got no --time'],
    [{ ...FLAGS, value: undefined }, 'got no --value'],
    [{ ...FLAGS, encoding: 'utf-9' }, 'encoding: expected "utf-8" or "latin1", got "utf-9"'],
    [{ ...FLAGS, skip: '-1' }, 'skip: expected at least 0, got -1'],
    [{ ...FLAGS, value: ['T'] }, 'expected COLUMN=QUANTITY:UNIT'],
    [{ ...FLAGS, value: ['T=warmth:°C'] }, 'quantity'],
    [{ ...FLAGS, probeColumn: 'P' }, 'got both'],
    [{ ...FLAGS, skip: 'two' }, 'skip'],
    [{ ...FLAGS, map: 'map.json' }, 'got --map and --site'],
    [{ map: '/nowhere/map.json' }, 'can be read at /nowhere/map.json, got none'],
  ])('%o is refused', (flags, part) => {
    expect(() => mappingOf(flags as unknown as MappingFlags)).toThrow(part);
  });
});
