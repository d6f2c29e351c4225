import { describe, expect, test } from 'vitest';
import {
  expectAccessible,
  expectNoSidewaysScroll,
  openPage,
  picture,
  SIZES_TRIED,
  seasonToRead,
} from './support/page.js';

describe.each(SIZES_TRIED)('work on a %s', (size) => {
  test('says what comes next at each bed, and leads to the jobs of a season', async () => {
    const { http } = seasonToRead();
    const { page, complaints } = await openPage(`${http}/jobs`, size);
    const unfilled = page.getByRole('article', { name: 'Pit C by the fig tree' });
    await unfilled.getByText('Not filled yet.').waitFor();
    await unfilled.getByText(/^Of 18 points before filling, .* against it and .* not known yet\.$/).waitFor();
    await page
      .getByRole('article', { name: 'Box B in the hut' })
      .getByText(/look by hand/)
      .waitFor();
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `work-${size}`);
    expect(complaints).toEqual([]);
  });
});
