/** Rot that was found and left in a bed without an alarm, over a real station. */
import { expect, test } from 'vitest';
import { day, filling, ledgerApp, ledgerSite, look } from '../support/ledger.js';

const URL = '/api/beds/pit-t';
const ROT = { found: ['rot'], looked: 10, rotten: 2 };

async function withRot() {
  const app = await ledgerApp({ site: ledgerSite({ filled: day(0) }) });
  app.goTo(5.01);
  const write = (last: number, change: object) => app.post(`${URL}/inspections`, look(last, change));
  expect((await write(1, ROT)).statusCode).toBe(201);
  const bed = async () => (await app.get(URL)).json();
  const items = async (query = '') =>
    (await app.get(`/api/today${query}`))
      .json()
      .items.filter(({ kind }: { kind: string }) => kind !== 'service');
  return { ...app, write, bed, items };
}

test('is a job of today, first, in words, and the bed does not stand as sound', async () => {
  const { bed, items, get } = await withRot();
  expect(await bed()).toMatchObject({
    ...{ stands: 'unpack', standsSince: day(5), openAlarms: [] },
    rotLeft: { since: day(5), at: day(5), language: 'en', draft: false },
  });
  expect((await items())[0]).toMatchObject({
    ...{ when: 'today', kind: 'look', action: 'unpack', alarm: null, since: day(5) },
    bed: { id: 'pit-t', name: 'Pit T' },
    text: expect.stringMatching(
      /^Pit T: rot was found on 9 May and the bed was not repacked\..*every rotten root/,
    ),
  });
  expect((await items())[0].text).toContain('not even trimmed');
  const [due] = (await get('/api/looks')).json();
  expect(due).toMatchObject({ bed: 'pit-t', due: true, dueAt: day(5), reasons: [{ by: 'rot' }, {}] });
});

test('is asked for once, also when the look by rule is due', async () => {
  const { goTo, items } = await withRot();
  goTo(25);
  expect(await items()).toHaveLength(1);
});

test.each(['fr', 'pt', 'sw', 'ha', 'ny', 'am'])('is said in %s, as a draft', async (tag) => {
  const { get, items } = await withRot();
  const [item] = await items(`?language=${tag}`);
  expect(item).toMatchObject({ language: tag });
  expect(item.text).not.toMatch(/rot was found/);
  const bed = (await get(`${URL}?language=${tag}`)).json();
  expect(bed.rotLeft).toMatchObject({ text: item.text, language: tag, draft: true });
});

test.each([
  ['a repacking', { ...ROT, repacked: true }],
  ['a look that finds none', { looked: 60, rotten: 0 }],
])('%s ends it', async (_, change) => {
  const { goTo, write, bed, items } = await withRot();
  goTo(6.01);
  await write(2, { at: day(6), ...change });
  const after = await bed();
  expect(after).toMatchObject({ rotLeft: null, standsSince: day(6) });
  expect(after.stands).not.toBe('unpack');
  expect(await items()).toEqual([]);
});

test('another filling ends it: it is another bed', async () => {
  const { goTo, post, bed } = await withRot();
  goTo(7);
  expect((await post(`${URL}/fillings`, filling(9, { at: day(6) }))).statusCode).toBe(201);
  expect(await bed()).toMatchObject({ rotLeft: null });
});

test('an hour under way is not told as judged to its end', async () => {
  const { goTo, write, bed } = await withRot();
  goTo(6.01);
  await write(2, { at: day(6), found: ['nothing'] });
  expect(await bed()).toMatchObject({ judgedTo: day(6) });
  goTo(6.5);
  expect(Date.parse((await bed()).judgedTo)).toBe(Date.parse(day(6)) + 3_600_000);
});
