/** Exports of a time of which readings are not kept one by one. The long archive stands in another file of the same kind. */
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import type { OlderPages, OlderReading } from '../../services/joining/export-older.js';
import { sqlite } from '../support/both-archives.js';
import { ASKED, BROKEN, bytesOf, openExport, READINGS, START } from '../tables/export/an-export.js';

/** All probes, in hours up to then: within an hour of the last stay. */
const GOAL = START + 24 * HOUR_ms;
const PROBES = ['p01', 'p02', 'p09'];
const at = (index: number): number => START + index * 10 * MINUTE_ms;

/** @param kept whether the long archive has a reading */
async function openOlder(kept: (reading: OlderReading, probe: string) => boolean = () => true, goal = GOAL) {
  const { history } = sqlite();
  const asked: string[] = [];
  const older: OlderPages = {
    pages: (site, probe, span) => {
      asked.push(probe);
      return history.pages({ site, probe }, span);
    },
  };
  const here = openExport(older);
  const before = { csv: await here.bytes({ shade: true }), part: await here.bytes(PART) };
  expect(asked).toEqual([]);
  for (const probe of PROBES) await moveToHours(here, history, probe, kept, goal);
  return { ...here, before, asked };
}

/** A span that cuts hours on both sides. */
const PART = { from: at(2), to: at(22), shade: true };

async function moveToHours(
  { archive, database }: Awaited<ReturnType<typeof openExport>>,
  history: ReturnType<typeof sqlite>['history'],
  probe: string,
  kept: (reading: OlderReading, probe: string) => boolean,
  goal: number,
): Promise<void> {
  const key = archive.keys.keyOf('test-ridge', probe);
  const reading = archive.exporting.of(['temperature', 'humidity', 'battery', 'charge']);
  const rows = reading
    .readings(key, 0, Number.MAX_SAFE_INTEGER, READINGS)
    .map(([time, temperature = null, humidity = null, battery = null, charge = null]) => ({
      ...{ time, temperature, humidity, battery, charge },
    }));
  await history.put(
    { site: 'test-ridge', probe },
    rows.filter((row) => kept(row, probe)),
  );
  database.transaction(() => {
    archive.fullRate.set(key, { since: 0, goal, foldedTo: 0 });
    while (archive.folding.waits(key)) archive.folding.step(key, 50);
  })();
}

const read = (bytes: Buffer) =>
  Papa.parse<Record<string, string>>(bytes.toString('utf8'), { header: true, skipEmptyLines: true }).data;

describe('readings that stand by hours here', () => {
  test.each([GOAL, GOAL + 25 * MINUTE_ms, at(READINGS + 1)])(
    'are written one by one from the long archive, as if they stood here: %d',
    async (goal) => {
      const { bytes, before, asked } = await openOlder(undefined, goal);
      expect((await bytes({ shade: true })).equals(before.csv)).toBe(true);
      expect((await bytes(PART)).equals(before.part)).toBe(true);
      expect(new Set(asked)).toEqual(new Set(PROBES));
    },
  );

  test('stand as an hour where the long archive lacks one of them', async () => {
    const { bytes } = await openOlder(({ time }, probe) => probe !== 'p01' || time !== at(8));
    const rows = read(await bytes({ quantities: ['temperature'] })).filter(({ probe }) => probe === 'p01');
    const hours = rows.filter(({ of }) => of === 'hour');
    expect(hours).toMatchObject([{ time: '2026-05-04T09:00:00Z', count: '6' }]);
    expect(rows).toHaveLength(READINGS - 6 + 1);
    expect(rows.map(({ time }) => time)).toEqual(rows.map(({ time }) => time).sort());
    // Of an hour that the span cuts nobody knows what is in it: what the long archive has of it is written.
    const cut = read(await bytes({ quantities: ['temperature'], from: at(7), to: at(12) }));
    expect(cut.filter(({ probe }) => probe === 'p01').map(({ of }) => of)).toEqual(Array(4).fill('reading'));
  });

  test('a lack of humidity does not make an hour of temperatures', async () => {
    const { bytes, before } = await openOlder(({ temperature }) => temperature !== null);
    expect((await bytes({ shade: true })).equals(before.csv)).toBe(true);
  });

  test('what is flagged, and what came late, is written with what the long archive has', async () => {
    const { bytes, archive } = await openOlder();
    const key = archive.keys.keyOf('test-ridge', 'p01');
    archive.readings.put(key, at(3) + MINUTE_ms, { temperature: 19.5 });
    archive.readings.put(key, at(4), { humidity: 77 });
    const rows = read(await bytes()).filter(({ probe }) => probe === 'p01');
    expect(rows).toContainEqual(expect.objectContaining({ time: '2026-05-04T08:31:00Z', raw: '19.5' }));
    expect(rows.filter(({ time }) => time === '2026-05-04T08:40:00Z')).toMatchObject([
      { quantity: 'temperature', raw: '20.4' },
      { quantity: 'humidity', raw: '77' },
    ]);
    expect(rows.filter(({ raw }) => raw === '85')).toMatchObject([
      { time: new Date(at(BROKEN)).toISOString().replace('.000', ''), flags: 'sensor-code;outside' },
    ]);
  });

  test('are not asked for where all of the span stands here', async () => {
    const { bytes, asked } = await openOlder();
    await bytes({ from: GOAL });
    expect(asked).toEqual([]);
  });
});

describe('a long archive that does not answer', () => {
  const silent = (pages: OlderPages['pages']) => {
    const { exports, archive } = openExport({ pages });
    for (const probe of PROBES) {
      const key = archive.keys.keyOf('test-ridge', probe);
      archive.fullRate.set(key, { since: GOAL, goal: GOAL, foldedTo: GOAL });
    }
    return exports;
  };

  test.each(['csv', 'parquet'] as const)('is told before the first byte of %s', async (format) => {
    // biome-ignore lint/correctness/useYield: it fails before it has anything
    const exports = silent(async function* () {
      throw new Error('connect ECONNREFUSED');
    });
    await expect(exports.rows(ASKED, format)).rejects.toMatchObject({
      code: 'RECEIVER_UNAVAILABLE',
      message: expect.stringContaining(
        'expected readings of p01 from 2026-05-04T08:00:00Z on from the long archive, which does not answer (connect ECONNREFUSED)',
      ),
    });
    await expect(exports.rows({ ...ASKED, from: GOAL }, format)).resolves.toBeDefined();
  });

  test('ends the rows where it falls silent between two pages, and nothing passes for whole', async () => {
    let asked = 0;
    const exports = silent(async function* (_site, _probe, { from }) {
      asked += 1;
      if (asked === 1) return;
      yield [{ time: from, temperature: 20, humidity: null, battery: null, charge: null }];
      throw new Error('socket hang up');
    });
    await expect(bytesOf(await exports.rows(ASKED, 'csv'))).rejects.toThrow('(socket hang up)');
  });
});
