/** Six boxes that are kept in two ways, and their trial, 70 days after they were filled: invented. */
import { randomUUID } from 'node:crypto';
import { ARCHIVE_SCHEMA, createArchive, openDatabase } from '../../../services/archive/index.js';
import { checkSiteFile } from '../../../services/core/model/site-file.js';
import { createRegistry, REGISTRY_SCHEMA } from '../../../services/registry/index.js';
import { temporaryDirectory } from '../../support/open.js';

const DAY_ms = 24 * 3_600_000;
const KEPT_days = 70;
const BOXES = ['box-1', 'box-2', 'box-3', 'box-4', 'box-5', 'box-6'] as const;

/** Of 50 roots looked at in each box, rotten at days 14, 28, 42 and 63. */
const ROTTEN = [
  [0, 1, 2, 4],
  [1, 3, 6, 12],
  [1, 1, 3, 5],
  [2, 4, 7, 13],
  [0, 2, 2, 6],
  [1, 4, 8, 15],
] as const;

/** A data folder with the boxes and what the watch would have found in them day by day. */
export function trialData(): { readonly data: string; readonly filledAt: number } {
  const data = temporaryDirectory();
  const filledAt = Math.floor(Date.now() / DAY_ms) * DAY_ms - KEPT_days * DAY_ms;
  const database = openDatabase(data, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  createRegistry(database).sites.load(checkSiteFile('site.json', siteOf(filledAt)), filledAt);
  const { keys, judged } = createArchive(database);
  BOXES.forEach((_, box) => {
    const key = keys.keyOf('test-ridge', `p0${box + 1}`);
    for (let on = 0; on < KEPT_days; on += 1)
      judged.put(key, {
        ...{ hour: filledAt + on * DAY_ms, expected: 20, band: 0.5 },
        excess: 0.2 + 0.1 * Math.sin(on + box) + (box % 2) * 0.012 * on,
      });
  });
  database.close();
  return { data, filledAt };
}

const siteOf = (filledAt: number) => ({
  version: 1,
  site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
  beds: BOXES.map((id) => ({
    ...{ id, name: `Box ${id.at(-1)}`, kind: 'box', steps: [{ length: 90, width: 60, height: 60 }] },
  })),
  probes: BOXES.map((bed, at) => ({
    id: `p0${at + 1}`,
    placements: [{ bed, x: 45, y: 30, depth: 30, from: new Date(filledAt).toISOString() }],
  })),
});

/** Writes down fillings, looks and a trial whose treatments were drawn; given by hand they are as the looks have it. */
export async function keepTrial(http: string, filledAt: number): Promise<void> {
  const day = (days: number): string => new Date(filledAt + days * DAY_ms).toISOString();
  const head = (days: number) => ({ id: randomUUID(), at: day(days), by: 'Amina' });
  for (const [at, bed] of BOXES.entries()) {
    await post(`${http}/api/beds/${bed}/records`, {
      fillings: [{ ...head(0), courses: [{ roots: 300, mass_kg: 90 }] }],
      inspections: [14, 28, 42, 63].map((on, nth) => {
        const rotten = ROTTEN[at]?.[nth] ?? 0;
        return {
          ...head(on),
          opened: true,
          repacked: false,
          found: rotten > 0 ? ['rot'] : ['nothing'],
          looked: 50,
          rotten,
        };
      }),
    });
  }
  const about = {
    design: 'blocks',
    treatments: ['fine sand', 'coarse sand'],
    outcome: { kind: 'loss', day: 63 },
  };
  const beds = BOXES.map((bed, at) => ({ bed, block: `row ${Math.floor(at / 2) + 1}` }));
  const given = beds.map((each, at) => ({ ...each, treatment: about.treatments[at % 2] }));
  const name = 'Fine or coarse sand';
  await post(`${http}/api/trials`, {
    ...{ ...head(0), ...about, trial: 'sand-one', name, from: day(0), beds: given },
    question: 'Does coarse sand lose more roots in our boxes?',
  });
  await post(`${http}/api/trials`, {
    ...{
      ...head(0),
      ...about,
      trial: 'next-one',
      name: 'Deep or shallow',
      from: day(-300),
      to: day(-200),
      beds,
    },
  });
  await post(`${http}/api/trials/next-one/assignment`, { ...head(0), seed: 7 });
}

async function post(address: string, body: unknown): Promise<void> {
  const answer = await fetch(address, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  if (!answer.ok) throw new Error(`${address}: ${answer.status} ${await answer.text()}`);
}
