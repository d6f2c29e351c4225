/** What a running service makes of descriptions that others load beside it. */
import { expect, test } from 'vitest';
import { createMetrics } from '../../services/http/index.js';
import { Ingest } from '../../services/joining/ingest.js';
import { SHORT_SEASON, siteOf } from '../support/season.js';
import { NOW, openStation } from '../support/station.js';

const reading = (probe: string, minute: number) => ({
  topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
  payload: Buffer.from(
    JSON.stringify([{ n: 'temperature', u: 'Cel', v: 20, bt: SHORT_SEASON.startAt / 1000 + 60 * minute }]),
  ),
  receivedAt: NOW,
});

test('a probe is adopted also where a batch took in the description before anybody looked', () => {
  const station = openStation();
  const ingest = new Ingest({
    ...{ station: station.station, takeIn: station.takeIn, metrics: createMetrics('0.1.0') },
    telling: { wake: () => undefined, showAll: () => undefined } as never,
    ...{ catchUp: { kick: () => undefined } as never, log: () => undefined },
  });
  const site = siteOf(SHORT_SEASON) as { probes: { id: string }[] };
  station.load({ ...site, probes: site.probes.filter(({ id }) => id !== 'p03') });
  ingest.refresh();
  ingest.commit([reading('p03', 10)]);
  expect(station.views.unknownProbes()).toHaveLength(1);
  station.load(site);
  ingest.commit([reading('p01', 20)]);
  ingest.refresh();
  expect(station.archive.apart.list()).toEqual([]);
  const key = station.station.directory.find('test-ridge', 'p03')?.key ?? 0;
  expect(station.archive.readings.firstTime(key, 0)).toBe(SHORT_SEASON.startAt + 600_000);
});
