/** Answers as people write them, and those that could mean two things. */
import { describe, expect, test } from 'vitest';
import { parseAnswer, type UnclearReason } from '../../../../services/core/alarms/answers/index.js';

const seen = (...numbers: number[]) => ({ kind: 'seen', numbers });
const found = (findings: string[], numbers: number[] = [], repacked = false) => ({
  kind: 'found',
  findings,
  repacked,
  numbers,
});
const quiet = (hours: number, ...numbers: number[]) => ({ kind: 'quiet', hours, numbers });

describe('seen', () => {
  test.each([
    ['OK 3', 3],
    ['ok3', 3],
    ['  Ok .  3 !! ', 3],
    ['3 ok', 3],
    ['0K 3', 3],
    ['okay, I will go tomorrow. No 3', 3],
    ['OK no. 3', 3],
    ['OK #3', 3],
    ['ＯＫ ３', 3],
    ['OK ٣', 3],
    ['OK ३', 3],
    ['እሺ ፫', 3],
    ['eshi 12', 12],
    ['OK ፲፪', 12],
    ['OK ፻፭', 105],
    ['Vu 3', 3],
    ['D’accord 3', 3],
    ['pas de problème 3', 3],
    ['visto 3', 3],
    ['sawa 3', 3],
    ['Hakuna shida 3', 3],
    ['toh 3', 3],
    ['chabwino 3', 3],
    ['OK 9999', 9999],
    ['OK 003', 3],
  ])('%s', (text, number) => {
    expect(parseAnswer(text)).toEqual(seen(number));
  });

  test.each([
    ['OK', []],
    ['OK 3 5', [3, 5]],
    ['OK 3, 5 and 7', [3, 5, 7]],
    ['OK 3,5', [3, 5]],
    ['OK 3፣5', [3, 5]],
    ['OK 3, OK 5, OK 3', [3, 5]],
    ['OK 3, back in 6 hours', [3]],
  ])('%s', (text, numbers) => {
    expect(parseAnswer(text)).toEqual(seen(...numbers));
  });
});

describe('all', () => {
  test.each([
    ['OK ALL', { kind: 'seen', numbers: [], all: true }],
    ['ok, everything', { kind: 'seen', numbers: [], all: true }],
    ['LATER ALL 6h', { kind: 'quiet', hours: 6, numbers: [], all: true }],
    ['LATER ALL 6', { kind: 'quiet', hours: 6, numbers: [], all: true }],
    ['sawa zote', { kind: 'seen', numbers: [], all: true }],
    ['BAADAYE ZOTE SAA 6', { kind: 'quiet', hours: 6, numbers: [], all: true }],
    ['tudo bem 3', found(['nothing'], [3])],
    ['found all rotten 3', found(['rot'], [3])],
    ['FOUND NOTHING ALL', found(['nothing'])],
  ])('%s', (text, answer) => {
    expect(parseAnswer(text)).toEqual(answer);
  });

  test.each<[string, UnclearReason]>([
    ['OK ALL 3', 'mixed'],
    ['LATER ALL 3 6h', 'mixed'],
    ['LATER ALL', 'no-hours'],
    ['ALL', 'no-known-word'],
    ['all rotten', 'unsure'],
    ['not all ok', 'negated'],
  ])('%s is not taken', (text, reason) => {
    expect(parseAnswer(text)).toEqual({ kind: 'unclear', reason });
  });
});

describe('found', () => {
  test.each([
    ['FOUND ROT 3', found(['rot'], [3])],
    ['found damp rot 3', found(['rot', 'damp'], [3])],
    ['ROT 3', found(['rot'], [3])],
    ['rotten', found(['rot'])],
    ['3 nothing', found(['nothing'], [3])],
    ['I found weevils in the roots 3', found(['weevils'], [3])],
    ['OK found sprouts 3', found(['sprouts'], [3])],
    ['found rot, repacked 3', found(['rot'], [3], true)],
    ['nothing, repacked 3', found(['nothing'], [3], true)],
    ['Trouvé pourri 3', found(['rot'], [3])],
    ['trouvee moisissure 3', found(['rot'], [3])],
    ["trouvé de l'eau 3", found(['damp'], [3])],
    ["Je n'ai rien trouvé 3", found(['nothing'], [3])],
    ['achei podre e gorgulhos 3', found(['rot', 'weevils'], [3])],
    ['Não achei nada 3', found(['nothing'], [3])],
    ['nimeona kuoza 3', found(['rot'], [3])],
    ['hakuna kitu 3', found(['nothing'], [3])],
    ['na ga ƙwari 3', found(['weevils'], [3])],
    ['na ga ruɓa 3', found(['rot'], [3])],
    ['babu komai 3', found(['nothing'], [3])],
    ['ndapeza kuwola 3', found(['rot'], [3])],
    ['ብስባሽ አገኘሁ 3', found(['rot'], [3])],
    ['ምንም የለም 3', found(['nothing'], [3])],
    ['found kuoza 3 5', found(['rot'], [3, 5])],
  ])('%s', (text, answer) => {
    expect(parseAnswer(text)).toEqual(answer);
  });
});

describe('quiet', () => {
  test.each([
    ['LATER 3 6h', quiet(6, 3)],
    ['QUIET 3 6', quiet(6, 3)],
    ['quiet 3 5 6', quiet(6, 3, 5)],
    ['later 6 hours', quiet(6)],
    ['6h quiet 3', quiet(6, 3)],
    ['OK, later 3 6 h', quiet(6, 3)],
    ['plus tard 3 6 heures', quiet(6, 3)],
    ['depois 3 6 horas', quiet(6, 3)],
    ['baadaye 3 saa 6', quiet(6, 3)],
    ['baadaye saa 6, 3', quiet(6, 3)],
    ['anjima 3 awa 6', quiet(6, 3)],
    ['kenako 3 maola 6', quiet(6, 3)],
    ['በኋላ 3 6 ሰዓት', quiet(6, 3)],
    ['later 3 1h', quiet(1, 3)],
    ['later 3 72h', quiet(72, 3)],
  ])('%s', (text, answer) => {
    expect(parseAnswer(text)).toEqual(answer);
  });
});

describe('stop', () => {
  test.each(['STOP', 'stop.', 'Arrêtez', 'ACHA', 'አቁም'])('%s', (text) => {
    expect(parseAnswer(text)).toEqual({ kind: 'stop' });
  });
});

describe('unclear', () => {
  test.each<[string, UnclearReason]>([
    ['', 'empty'],
    [' .!? 😀 ', 'empty'],
    ['o'.repeat(481), 'too-long'],
    ['3', 'no-known-word'],
    ['hello 3', 'no-known-word'],
    ['toString constructor __proto__', 'no-known-word'],
    ['not ok 3', 'negated'],
    ["didn't find rot 3", 'negated'],
    ['found no rot 3', 'negated'],
    ['pas de pourriture 3', 'negated'],
    ['ban ga ruba ba 3', 'negated'],
    ['hakuna kuoza 3', 'mixed'],
    ['nothing but rot 3', 'mixed'],
    ['later rot 3 6h', 'mixed'],
    ['stop 3', 'mixed'],
    ['ok stop', 'mixed'],
    ['OK will look for rot 3', 'unsure'],
    ['OK rot 3', 'unsure'],
    ['bring water 3', 'unsure'],
    ['found 3', 'no-finding'],
    ['repacked 3', 'no-finding'],
    ['later', 'no-hours'],
    ['later 3', 'no-hours'],
    ['later 3 0h', 'hours-out-of-range'],
    ['later 3 73h', 'hours-out-of-range'],
    ['later 3 99999999999999999999h', 'hours-out-of-range'],
    ['quiet 3 100', 'hours-out-of-range'],
    ['later 3 1,5h', 'strange-number'],
    ['later 3 1.5h', 'strange-number'],
    ['later 3 6h 7h', 'strange-number'],
    ['OK 0', 'strange-number'],
    ['OK 10000', 'strange-number'],
    ['OK 0712345678', 'strange-number'],
    ['OK 1.8', 'strange-number'],
    ['OK 3-5', 'strange-number'],
    ['OK 12:30', 'strange-number'],
    ['OK ½', 'strange-number'],
    [`OK ${'3 '.repeat(21)}`, 'strange-number'],
  ])('%j: %s', (text, reason) => {
    expect(parseAnswer(text)).toEqual({ kind: 'unclear', reason });
  });
});

describe("the person's own language", () => {
  test('comes first where two languages share a word', () => {
    expect(parseAnswer('OK no poço 3')).toEqual({ kind: 'unclear', reason: 'negated' });
    expect(parseAnswer('OK no poço 3', ['pt-MZ'])).toEqual(seen(3));
  });

  test('does not keep out the others', () => {
    expect(parseAnswer('found rot 3', ['am'])).toEqual(found(['rot'], [3]));
  });

  test.each([['xx'], [''], ['toString']])('that is none here is passed over: %j', (tag) => {
    expect(parseAnswer('OK 3', [tag])).toEqual(seen(3));
  });
});
