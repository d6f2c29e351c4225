/** A season of the ledger's pit: filled, looked into, eaten from, with a year of readings. */
import { DAY_ms } from '../../services/core/model/time.js';
import { day, entry, FILLED_AT, filling, type LedgerApp, ledgerApp, ledgerSite, look } from './ledger.js';
import type { Message } from './season.js';

const PLACED = [{ bed: 'pit-t', x: 75, y: 50, depth: 30, from: day(-400) }];

/** A reading every six hours of the days from one to another, at a temperature. */
export const warmthOver = (from_d: number, to_d: number, temperature: number): Message => {
  const records: object[] = [];
  for (let at = FILLED_AT + from_d * DAY_ms; at < FILLED_AT + to_d * DAY_ms; at += DAY_ms / 4)
    records.push({ n: 'temperature', u: 'Cel', v: temperature, t: at / 1000 });
  return { topic: 'sandlarder/v1/test-ridge/probes/p01/readings', payload: JSON.stringify(records) };
};

/** At day 60. */
export async function keptSeason(): Promise<LedgerApp> {
  const app = await ledgerApp({ site: ledgerSite({}, PLACED) });
  app.goTo(60);
  const posts: [string, unknown][] = [
    ['fillings', filling(1, { mass_kg: 105, cultivar: 'Orange one', field: 'Upper field', lot: 'L7' })],
    [
      'inspections',
      look(2, {
        at: day(14),
        found: ['rot'],
        looked: 50,
        rotten: 2,
        weevil: 0,
        out: [{ reason: 'thrown', roots: 2 }],
      }),
    ],
    [
      'inspections',
      look(3, {
        at: day(28),
        found: ['rot', 'weevils'],
        looked: 60,
        rotten: 3,
        weevil: 1,
        out: [{ reason: 'thrown', roots: 4 }],
      }),
    ],
    ['stock', entry(4, { at: day(30), roots: 44 })],
    ['stock', entry(5, { at: day(40), reason: 'sold', roots: 50 })],
  ];
  for (const [where, body] of posts) {
    const answer = await app.post(`/api/beds/pit-t/${where}`, body);
    if (answer.statusCode >= 300) throw new Error(`${where}: ${answer.statusCode} ${answer.body}`);
  }
  app.commit([warmthOver(0, 60, 22)]);
  return app;
}
