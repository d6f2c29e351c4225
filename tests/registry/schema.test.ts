import { expect, onTestFinished, test } from 'vitest';
import { openDatabase } from '../../services/archive/index.js';
import { createRegistry, REGISTRY_SCHEMA } from '../../services/registry/index.js';
import { temporaryDirectory } from '../support/open.js';

const PLACE = { x: 80, y: 35, depth: 40, radius: 15 };

/** A file as it was after so many steps, with an alarm and a state of a watch in it. */
function oldFile(steps: number): string {
  const directory = temporaryDirectory();
  const old = { name: REGISTRY_SCHEMA.name, steps: REGISTRY_SCHEMA.steps.slice(0, steps) };
  const database = openDatabase(directory, [old]);
  database
    .prepare(
      `INSERT INTO alarm (id, site, bed, kind, action, priority, raised_at, evidence, place, text, ack_by, ack_note, ack_at)
       VALUES ('a1', 's', 'pit-a', 'heating', 'unpack', 'high', 5, '{"excess_C":2}', ?, 'text', 'keeper', 'seen', 7)`,
    )
    .run(JSON.stringify(PLACE));
  database.exec("INSERT INTO watch_checkpoint (bed, hour, state) VALUES ('pit-a', 3600000, '{}')");
  database.exec("INSERT INTO watch_mark VALUES ('pit-a', 'v', 0, 3600000, NULL)");
  database.close();
  return directory;
}

function opened(directory: string) {
  const database = openDatabase(directory, [REGISTRY_SCHEMA]);
  onTestFinished(() => {
    database.close();
  });
  return createRegistry(database);
}

test('an alarm of an old file is about the bed as a whole, and people were told its place', () => {
  const { alarms } = opened(oldFile(1));
  expect(alarms.get('a1')).toMatchObject({
    subject: '',
    evidence: { excess_C: 2 },
    place: PLACE,
    acknowledgement: { by: 'keeper', note: 'seen', at: 7 },
    told: { place: PLACE, again: false },
  });
  const other = { ...alarms.get('a1'), kind: 'probe-fault', subject: 'p03' } as const;
  alarms.put('a2', 's', other as never, 'text');
  expect(alarms.get('a2')?.subject).toBe('p03');
});

test('states of an old file, which do not say what was open by then, are not used; the mark stays', () => {
  const { watch } = opened(oldFile(1));
  expect(watch.checkpoint('pit-a', Number.MAX_SAFE_INTEGER)).toBeUndefined();
  expect(watch.mark('pit-a')).toEqual({ version: 'v', begunAt: 0, judgedTo: 3_600_000, dirtyFrom: null });
});

test('a file that is up to date is left as it is', () => {
  const directory = oldFile(1);
  opened(directory).alarms.noteTold('a1', { place: null, again: true });
  opened(directory);
  expect(opened(directory).alarms.get('a1')?.told).toEqual({ place: null, again: true });
});
