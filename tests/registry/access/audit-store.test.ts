import { describe, expect, test } from 'vitest';
import { checkData } from '../../../services/commands/safekeeping/safekeeping.js';
import { auditProblems } from '../../../services/registry/index.js';
import { openStores } from '../../support/open.js';

const DEED = { at: 5, who: 'wanja', how: 'session', address: '192.0.2.7', did: 'putBed', what: 'PUT /x' };

function aTrail() {
  const { registry, database } = openStores();
  const { audit } = registry.access;
  const began = audit.begin(DEED);
  audit.end(began, DEED, 'done');
  audit.begin({ ...DEED, who: 'joseph' }, 'refused');
  audit.begin({ ...DEED, did: 'cut off' });
  return { audit, database };
}

test('a deed is told with what became of it, newest first; one that was cut off has no result', () => {
  const told = aTrail().audit.list(Number.MAX_SAFE_INTEGER, 9);
  expect(told.map(({ seq, who, result }) => [seq, who, result])).toEqual([
    [4, 'wanja', null],
    [3, 'joseph', 'refused'],
    [1, 'wanja', 'done'],
  ]);
  expect(aTrail().audit.list(3, 9)).toHaveLength(1);
});

describe('nobody changes it', () => {
  test.each([
    ["UPDATE audit SET who = 'x'", /cannot be changed/],
    ['UPDATE audit SET seq = 9 WHERE seq = 4', /cannot be changed/],
    ['DELETE FROM audit WHERE seq = 4', /cannot be cut/],
    ['DELETE FROM audit', /cannot be cut/],
    [
      'REPLACE INTO audit SELECT seq, at, ?, how, address, did, what, began, result, chain FROM audit',
      /order/,
    ],
    [
      'INSERT INTO audit SELECT 9, at, ?, how, address, did, what, began, result, chain FROM audit LIMIT 1',
      /order/,
    ],
    [
      `INSERT INTO audit SELECT seq, at, ?, how, address, did, what, began, result, chain FROM audit WHERE true
       ON CONFLICT (seq) DO UPDATE SET who = excluded.who`,
      /order|changed/,
    ],
  ])('%s is refused by the database', (statement, sentence) => {
    const { database } = aTrail();
    const run = () =>
      statement.includes('?') ? database.prepare(statement).run('x') : database.prepare(statement).run();
    expect(run).toThrow(sentence);
    expect(auditProblems(database)).toEqual([]);
  });
});

const WITHOUT = 'DROP TRIGGER audit_stays; DROP TRIGGER audit_is_kept; DROP TRIGGER audit_in_order;';

describe('whoever takes the triggers away leaves a trace', () => {
  test.each([
    ["UPDATE audit SET who = 'x' WHERE seq = 2", /row 2 does not follow/],
    ["UPDATE audit SET result = 'done' WHERE seq = 3", /row 3 does not follow/],
    ['DELETE FROM audit WHERE seq = 2', /expected row 2, got row 3/],
    ['DELETE FROM audit WHERE seq = 1', /expected row 1, got row 2/],
    ['UPDATE audit SET chain = zeroblob(32) WHERE seq = 4', /row 4 does not follow/],
  ])('%s', (statement, sentence) => {
    const { database } = aTrail();
    database.exec(`${WITHOUT} ${statement}`);
    expect(auditProblems(database)).toEqual([expect.stringMatching(sentence)]);
  });
});

test('a look over the data finds it', () => {
  const { database, directory } = openStores();
  database.exec(`${WITHOUT} INSERT INTO audit VALUES (2, 0, '', '', '', '', '', NULL, NULL, zeroblob(32))`);
  expect(() => checkData(undefined, { data: directory }, () => undefined)).toThrow(/audit trail has a gap/);
});

test('two programs that write to one file keep one chain', () => {
  const { database, directory } = openStores();
  const other = openStores(directory);
  const [one, two] = [openStores(directory).registry.access.audit, other.registry.access.audit];
  for (let index = 0; index < 6; index += 1) (index % 2 === 0 ? one : two).begin(DEED);
  expect(auditProblems(database)).toEqual([]);
  expect(one.list(99, 9)).toHaveLength(6);
});
