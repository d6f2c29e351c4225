/** What people wrote down in the season of these tests. */
import { randomUUID } from 'node:crypto';
import { request } from 'node:http';

const DAY_ms = 24 * 3_600_000;

/** @param from when the beds were filled, ms */
export async function keepRecords(service: string, from: number): Promise<void> {
  const day = (days: number): string => new Date(from + days * DAY_ms).toISOString();
  for (const bed of ['pit-a', 'box-b'])
    for (const days of [14, 28])
      await post(`${service}/api/beds/${bed}/inspections`, {
        ...{ id: randomUUID(), at: day(days), by: 'Amina' },
        ...{ opened: false, repacked: false, found: ['nothing'], note: 'Dry and cool to the hand.' },
      });
  await keepStock(`${service}/api/beds/box-b`, day);
}

/** Box B: what went in, and where it went. */
async function keepStock(bed: string, day: (days: number) => string): Promise<void> {
  await post(`${bed}/fillings`, {
    ...{ id: randomUUID(), at: day(0), by: 'Amina', cultivar: 'Orange, early', field: 'Lower field' },
    courses: [
      { roots: 130, mass_kg: 36 },
      { roots: 120, mass_kg: 34 },
    ],
    probes: [
      { probe: 'p11', x: 30, y: 25, depth: 25 },
      { probe: 'p12', x: 70, y: 25, depth: 25 },
      { probe: 'p13', x: 50, y: 25, depth: 50 },
    ],
  });
  const out = { kind: 'out', by: 'Amina' };
  await post(`${bed}/stock`, [
    { ...out, id: randomUUID(), at: day(14), roots: 12, mass_kg: 3.4, reason: 'eaten' },
    { ...out, id: randomUUID(), at: day(28), roots: 20, mass_kg: 5.5, reason: 'sold' },
    { ...out, id: randomUUID(), at: day(28), roots: 2, reason: 'thrown' },
  ]);
}

/** Over a socket of its own: the service is busy judging and closes sockets that rest meanwhile. */
function post(address: string, body: unknown): Promise<void> {
  return new Promise((resolve, reject) => {
    const headers = { 'content-type': 'application/json' };
    const asked = request(address, { method: 'POST', headers, agent: false }, (answer) => {
      answer.resume();
      if ((answer.statusCode ?? 500) < 300) resolve();
      else reject(new Error(`${address}: ${answer.statusCode}`));
    });
    asked.on('error', reject);
    asked.end(JSON.stringify(body));
  });
}
