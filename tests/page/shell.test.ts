import { describe, expect, test } from 'vitest';
import {
  expectAccessible,
  expectNoSidewaysScroll,
  openPage,
  picture,
  SIZES_TRIED,
  seasonToRead,
} from './support/page.js';

describe.each(SIZES_TRIED)('the frame of the page on a %s', (size) => {
  test('leads to every part, names where one is, and says what is not there', async () => {
    const { http } = seasonToRead();
    const { page, complaints } = await openPage(http, size);
    const ways = page.getByRole('navigation', { name: 'Parts of this page' });
    await ways.getByRole('link', { name: 'Beds' }).waitFor();
    expect(await ways.getByRole('link', { name: 'Beds' }).getAttribute('aria-current')).toBe('page');
    await page.goto(`${http}/beds/nope/nothing`);
    await page.getByRole('heading', { name: 'There is no such page' }).waitFor();
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `frame-${size}`);
    expect(complaints).toEqual([]);
  });
});
