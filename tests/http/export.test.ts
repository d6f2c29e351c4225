import { describe, expect, test } from 'vitest';
import { portsOnStation } from '../support/ports-on-station.js';
import { NOW } from '../support/station.js';
import { openExport, START } from '../tables/export/an-export.js';
import { appOver, problemOfAnswer } from './answers.js';
import { PortsInMemory } from './ports.js';

async function open() {
  const station = openExport();
  const app = await appOver(portsOnStation(station, { now: () => NOW }));
  return { ...station, get: (url: string) => app.inject(`/api/export/${url}`) };
}

describe('files over HTTP', () => {
  test('are those of the command', async () => {
    const { get, bytes, exports } = await open();
    const csv = await get('readings.csv?beds=pit-t');
    expect(csv.headers).toMatchObject({
      'content-type': 'text/csv; charset=utf-8; header=present',
      'content-disposition': 'attachment; filename="readings.csv"',
      'cache-control': 'no-store',
    });
    expect(csv.rawPayload.equals(await bytes())).toBe(true);
    const parquet = await get('readings.parquet?site=test-ridge');
    expect(parquet.headers['content-type']).toBe('application/vnd.apache.parquet');
    expect(parquet.rawPayload.equals(await bytes({ beds: undefined, site: 'test-ridge' }, 'parquet'))).toBe(
      true,
    );
    const asked = { beds: ['pit-t'], quantities: ['temperature', 'humidity'] } as const;
    for (const [file, document] of [
      ['readings.schema.json', 'schema'],
      ['datapackage.json', 'package'],
      ['calibrations.json', 'calibrations'],
      ['citation.txt', 'citation'],
    ] as const)
      expect((await get(`${file}?beds=pit-t`)).body).toBe(exports.document(asked, document, 'csv'));
  });

  test('keep to a span and to quantities', async () => {
    const { get, bytes } = await open();
    const span = `from=${new Date(START).toISOString()}&to=${new Date(START + 3_600_000).toISOString()}`;
    const { rawPayload } = await get(`readings.csv?beds=pit-t&${span}&quantities=humidity&shade=true`);
    const same = { from: START, to: START + 3_600_000, quantities: ['humidity'], shade: true } as const;
    expect(rawPayload.equals(await bytes(same))).toBe(true);
  });

  test('are refused where what is asked for is not there, or is not understood', async () => {
    const { get } = await open();
    for (const [url, status, part] of [
      ['readings.csv', 400, 'expected one of beds, site, trial'],
      ['readings.csv?beds=pit-t&site=test-ridge', 400, 'expected one of beds, site, trial'],
      ['readings.csv?beds=pit-t&quantities=warmth', 400, 'quantities'],
      ['readings.csv?beds=Pit%20T', 400, 'beds'],
      ['readings.csv?beds=pit-t&from=yesterday', 400, 'from'],
      ['readings.csv?beds=pit-t&format=csv', 400, 'format'],
      [
        'readings.csv?beds=pit-t&from=2026-05-04T08:00:00Z&to=2026-05-04T08:00:00Z',
        400,
        'from: expected a time before to, 2026-05-04T08:00:00Z, got 2026-05-04T08:00:00Z',
      ],
      ['datapackage.json?beds=pit-t&format=xlsx', 400, 'format'],
      ['readings.csv?beds=pit-x', 404, 'no bed has the id'],
      ['readings.parquet?site=nowhere', 404, 'no site with beds'],
      ['readings.parquet?beds=pit-t&to=2026-05-04T08:00:00Z', 422, 'expected readings in the selection'],
      ['citation.txt?trial=none', 404, 'no trial has the id'],
    ] as const)
      expect(JSON.stringify(problemOfAnswer(await get(url), status)), url).toContain(part);
  });
});

describe('exports under way', () => {
  /** Rows that never end, until they are let go. */
  class Endless extends PortsInMemory {
    ended = 0;
    override readonly exports = {
      document: () => '',
      rows: async () => this.#pieces(),
    };

    async *#pieces(): AsyncGenerator<Uint8Array> {
      try {
        for (;;) yield new Uint8Array(1000);
      } finally {
        this.ended += 1;
      }
    }
  }

  test('are three of a format at the most, and one that nobody waits for any more makes room', async () => {
    const ports = new Endless();
    const app = await appOver(ports);
    await app.listen({ port: 0, host: '127.0.0.1' });
    const address = app.server.address() as { port: number };
    const url = `http://127.0.0.1:${address.port}/api/export/readings.csv?beds=pit-t`;
    const gone = new AbortController();
    const open = await Promise.all([1, 2, 3].map(() => fetch(url, { signal: gone.signal })));
    expect(open.map(({ status }) => status)).toEqual([200, 200, 200]);
    const refused = await fetch(url);
    expect([refused.status, refused.headers.get('retry-after')]).toEqual([503, '10']);
    await refused.text();
    gone.abort();
    for (let again = await fetch(url); ; again = await fetch(url)) {
      await again.body?.cancel();
      if (again.status === 200) break;
    }
    expect(ports.ended).toBeGreaterThan(0);
    await app.close();
  });
});
