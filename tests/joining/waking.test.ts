/** A station that starts: what is asked of it costs no watch, and one message wakes one watch at the most. */
import { expect, test } from 'vitest';
import { HOUR_ms } from '../../services/core/model/time.js';
import type { Watch } from '../../services/core/watch/watch.js';
import { temporaryDirectory } from '../support/open.js';
import { pointingWatch } from '../support/pointing-watch.js';
import { openStation } from '../support/station.js';

const BEGIN = Date.UTC(2026, 4, 4);
const BEDS = ['pit-a', 'pit-b', 'pit-c'];

function siteOf(name = 'Pit', ids = BEDS) {
  const from = new Date(BEGIN).toISOString();
  const steps = [{ length: 150, width: 100, height: 50 }];
  return {
    version: 1,
    site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
    beds: ids.map((id) => ({ id, name, kind: 'box', steps, filled: from })),
    probes: ids.map((bed, at) => ({
      id: `p0${at + 1}`,
      placements: [{ bed, x: 75, y: 40, depth: 30, from }],
    })),
  };
}

/** One reading of each bed, ten minutes into an hour: it closes the hour before. */
const round = (hour: number, ids = BEDS) =>
  ids.map((_, at) => ({
    topic: `sandlarder/v1/test-ridge/probes/p0${at + 1}/readings`,
    payload: JSON.stringify([
      { n: 'temperature', u: 'Cel', v: 20 + hour, bt: (BEGIN + hour * HOUR_ms) / 1000 + 600 },
    ]),
  }));

/** The pointing watch, which learns for three hours; `opened` counts how often one is made to stand. */
function learningWatch() {
  const opened = { count: 0 };
  const watch: Watch = {
    version: 'learning',
    open: (bed, checkpoint) => {
      opened.count += 1;
      const inner = pointingWatch.open(bed, checkpoint);
      let hours = checkpoint === undefined ? 0 : 24;
      return {
        ...inner,
        step: (hour) => {
          hours += 1;
          return inner.step(hour);
        },
        standing: () => ({ basis: `of ${hours} hours`, learning: hours < 3 }),
      };
    },
  };
  return { watch, opened };
}

test('how a bed stands after a restart is what it was before, and no watch is made to stand for it', () => {
  const directory = temporaryDirectory();
  const { watch, opened } = learningWatch();
  const before = openStation({ directory, watch });
  before.load(siteOf());
  for (let hour = 0; hour < 30; hour += 1) before.commit(round(hour));
  before.settle();
  const stood = before.views.beds();
  expect(stood.map(({ basis }) => basis)).toEqual(['of 29 hours', 'of 29 hours', 'of 29 hours']);
  before.close();
  opened.count = 0;
  const after = openStation({ directory, watch });
  after.station.inTransaction(() => undefined);
  expect(after.views.beds()).toEqual(stood);
  expect(opened.count).toBe(0);
});

test('of beds whose hours a message closes after a start one is judged with it, the others follow', () => {
  const directory = temporaryDirectory();
  const { watch, opened } = learningWatch();
  const before = openStation({ directory, watch });
  before.load(siteOf());
  for (let hour = 0; hour < 5; hour += 1) before.commit(round(hour));
  before.settle();
  before.close();
  opened.count = 0;
  const after = openStation({ directory, watch });
  after.commit(round(5));
  expect(opened.count).toBe(1);
  expect(after.station.dirty()).toHaveLength(2);
  expect(after.views.beds().map(({ judgedTo }) => judgedTo)).toEqual(
    [5, 4, 4].map((hours) => BEGIN + hours * HOUR_ms),
  );
  after.settle();
  expect(opened.count).toBe(3);
  after.commit(round(6));
  expect(after.station.dirty()).toEqual([]);
  expect(after.views.beds().map(({ judgedTo }) => judgedTo)).toEqual(BEDS.map(() => BEGIN + 6 * HOUR_ms));
});

test('a bed that waits to be judged stands as it was judged last; one that is described anew is learned anew', () => {
  const directory = temporaryDirectory();
  const { watch } = learningWatch();
  const before = openStation({ directory, watch });
  before.load(siteOf());
  for (let hour = 0; hour < 5; hour += 1) before.commit(round(hour));
  before.settle();
  before.close();
  const after = openStation({ directory, watch });
  const late = { n: 'temperature', u: 'Cel', v: 22, bt: BEGIN / 1000 + 1800 };
  after.commit([{ topic: 'sandlarder/v1/test-ridge/probes/p01/readings', payload: JSON.stringify([late]) }]);
  expect(after.station.dirty()).toHaveLength(1);
  expect(after.views.bed('pit-a')).toMatchObject({ basis: 'of 4 hours', stands: 'sound' });
  const site = siteOf();
  after.load({ ...site, beds: site.beds.map((bed) => ({ ...bed, roots: { count: 9, mass_kg: 3 } })) });
  after.station.inTransaction(() => undefined, { judged: 'later' });
  expect(after.views.bed('pit-a')).toMatchObject({ basis: 'of 0 hours', stands: 'learning' });
});

test('so many watches stand in memory and no more; the others judge as if they had stood all along', () => {
  const { watch, opened } = learningWatch();
  const beds = Array.from({ length: 70 }, (_, at) => `pit-${at}`);
  const station = openStation({ watch });
  station.load(siteOf('Pit', beds));
  for (let hour = 0; hour < 3; hour += 1) {
    station.commit(round(hour, beds));
    station.settle();
  }
  expect(station.views.beds().map(({ basis }) => basis)).toEqual(beds.map(() => 'of 2 hours'));
  expect(opened.count).toBeGreaterThan(beds.length);
  expect([...station.station.watchers.values()].filter(({ asleep }) => !asleep)).toHaveLength(64);
});
