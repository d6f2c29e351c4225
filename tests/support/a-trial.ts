/** Six boxes of a station that are kept in two ways, filled, looked into, and measured. */
import { DAY_ms } from '../../services/core/model/time.js';
import { day, FILLED_AT, filling, type LedgerApp, ledgerApp, look, uuid } from './ledger.js';

export const BOXES = ['box-1', 'box-2', 'box-3', 'box-4', 'box-5', 'box-6'] as const;

export const trialSite = () => ({
  version: 1,
  site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
  beds: BOXES.map((id) => ({
    id,
    name: `Box ${id.at(-1)}`,
    kind: 'box',
    steps: [{ length: 90, width: 60, height: 60 }],
  })),
  probes: BOXES.map((id, at) => ({
    id: `p0${at + 1}`,
    placements: [{ bed: id, x: 45, y: 30, depth: 30, from: day(-10) }],
  })),
});

export const trialBody = (last: number, change: object = {}) => ({
  ...{
    id: uuid(last),
    trial: 'sand-one',
    name: 'Fine or coarse sand',
    at: day(0),
    by: 'Wanja',
    from: day(0),
  },
  ...{ design: 'blocks', treatments: ['fine', 'coarse'], outcome: { kind: 'loss', day: 60 } },
  beds: BOXES.map((bed, at) => ({ bed, block: `row ${Math.floor(at / 2) + 1}` })),
  ...change,
});

export const drawing = (last: number, change: object = {}) => ({
  ...{ id: uuid(last), at: day(0), by: 'Wanja', seed: 7, ...change },
});

/** Roots found rotten of 50 at days 14, 28 and 60, by box. */
export const ROTTEN: readonly (readonly [number, number, number])[] = [
  [1, 2, 5],
  [2, 4, 9],
  [0, 2, 6],
  [3, 5, 11],
  [1, 1, 4],
  [2, 3, 8],
];

/** At day 61, with a trial that is written down but not drawn. */
export async function trialApp(): Promise<LedgerApp> {
  const app = await ledgerApp({ site: trialSite() });
  const send = async (url: string, body: unknown): Promise<void> => {
    const answer = await app.post(url, body);
    if (answer.statusCode >= 300) throw new Error(`${url}: ${answer.statusCode} ${answer.body}`);
  };
  await send('/api/trials', trialBody(900));
  app.goTo(61);
  for (const [at, bed] of BOXES.entries()) {
    await send(`/api/beds/${bed}/fillings`, filling(100 + at, { mass_kg: 105 }));
    for (const [nth, on] of [14, 28, 60].entries()) {
      const rotten = ROTTEN[at]?.[nth] ?? 0;
      const sprouted = nth * at;
      const seen = [...(rotten > 0 ? ['rot'] : []), ...(sprouted > 0 ? ['sprouts'] : [])];
      const found = seen.length > 0 ? seen : ['nothing'];
      await send(
        `/api/beds/${bed}/inspections`,
        look(200 + 10 * at + nth, { at: day(on), found, looked: 50, rotten, sproutsShort: sprouted }),
      );
    }
  }
  return app;
}

/** Excess as the watch would have written it, of hours of days, by box. */
export function putExcess(
  { archive }: LedgerApp,
  box: number,
  excessOf: (day: number) => number,
  days: number,
): void {
  const key = archive.keys.keyOf('test-ridge', `p0${box + 1}`);
  for (let on = 0; on < days; on += 1)
    for (const hour of [3, 15])
      archive.judged.put(key, {
        hour: Math.floor(FILLED_AT / DAY_ms) * DAY_ms + on * DAY_ms + hour * 3_600_000,
        ...{ expected: 20, band: 0.5, excess: excessOf(on) - (hour === 3 ? 0.5 : 0) },
      });
}
