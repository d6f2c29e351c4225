/** Whether what the service says from closed lists is known again, sentence by sentence, and said in other languages. */
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { cautionsFor } from '../../services/core/alarms/cautions.js';
import { meaningInWords } from '../../services/core/alarms/meaning.js';
import { stepsOf } from '../../services/core/alarms/story/index.js';
import { lookDue } from '../../services/core/keeping/index.js';
import { fillingCautions } from '../../services/core/keeping/look-cautions.js';
import { readinessOf } from '../../services/core/keeping/readiness.js';
import { SAND_WORKS, sandCautions } from '../../services/core/keeping/sand-cautions.js';
import { ACTIONS, ALARM_KINDS } from '../../services/core/model/alarm.js';
import { accessOf } from '../../services/joining/access.js';
import { chooseLanguage } from '../../services/web/words/language.js';
import { inWords, toldHere } from '../../services/web/words/told.js';
import { anAlarm, BOX, PIT } from '../core/alarms/an-alarm.js';
import { LIMITS, PIT as READY_PIT } from '../core/keeping/a-bed-to-fill.js';

const FAULTS = [
  ...['stuck', 'sensor-code', 'noisy', 'dead-humidity', 'clock', 'drift', 'humidity-drift'],
  ...['calibration-due', 'pulled', 'misplaced', 'another'],
];
const BEDS = [
  { ...PIT, kind: 'stepped-pit' },
  { ...BOX, kind: 'box' },
] as const;

const alarms = ALARM_KINDS.flatMap((kind) =>
  ACTIONS.flatMap((action) =>
    [...FAULTS.map((fault) => ({ probe: 'p01', fault })), { because: 'asked' }, {}].flatMap((evidence) => [
      anAlarm({ kind, action, evidence }),
      anAlarm({ kind, action, evidence, place: null, subject: 'p07' }),
    ]),
  ),
);

/** Sentences that nothing of the list says. */
const unknownOf = (texts: readonly string[]): string[] =>
  [...new Set(texts)].filter((text) => inWords(text) !== text);

test('each step of what to do, with its cautions, is known again, letter for letter', () => {
  const steps = alarms.flatMap((alarm) => BEDS.flatMap((bed) => stepsOf(alarm, bed)));
  expect(unknownOf(steps.flatMap(({ text, cautions }) => [text, ...cautions]))).toEqual([]);
  expect(unknownOf(alarms.flatMap(({ kind, action }) => cautionsFor(kind, action)))).toEqual([]);
});

test('what an alarm means is, but of the two faults that have more to them', () => {
  const plain = alarms.filter(({ evidence: { fault } }) => fault !== 'drift' && fault !== 'humidity-drift');
  expect(unknownOf(plain.map(meaningInWords))).toEqual([]);
});

describe('who may do what', () => {
  const yesNo = [true, false];
  const cases = (['open', 'first-steward', 'sign-in'] as const).flatMap((standing) =>
    (['built-in', 'external'] as const).flatMap((broker) =>
      yesNo.map((is) =>
        accessOf({
          ...{ standing: () => standing, httpCredentials: is, broker, mqttCredentials: is },
          ...{ brokerIsReached: is, deviceSecrets: () => 1, links: is, shortMessages: is, gateway: is },
        }),
      ),
    ),
  );

  test('is known again', () => {
    const texts = cases.flatMap(({ notes, parties }) => [
      ...notes,
      ...parties.flatMap(({ who, proof, may, mayNot }) => [who, proof, ...may, ...mayNot]),
    ]);
    expect(unknownOf(texts)).toEqual([]);
  });
});

test('each question before a filling is known again, and that nobody answered it', () => {
  const items = (['stepped-pit', 'box'] as const).flatMap(
    (kind) => readinessOf({ ...READY_PIT, kind, answers: {} }, LIMITS).items,
  );
  expect(unknownOf(items.map(({ question }) => question))).toEqual([]);
  expect(inWords('not answered')).toBe('not answered');
});

test('each caution about sand, filling and looking is known again', () => {
  const kinds = ['stepped-pit', 'box'] as const;
  const texts = [...SAND_WORKS.flatMap(sandCautions), ...kinds.flatMap(fillingCautions)];
  expect(unknownOf(texts)).toEqual([]);
});

test('why a look is due is known again', () => {
  const bed = {
    filledAt: 0,
    lookedAt: null,
    empty: false,
    inspectEvery_days: 14,
    openAlarms: [],
    rotSince: 1,
  };
  const texts = (['warmth', 'sprouting', 'weevils'] as const).flatMap((because) =>
    [null, 5].flatMap((lookedAt) =>
      lookDue({ ...bed, lookedAt, nextLook: { because, dueAt: 9 } }, 10).reasons.map(({ text }) => text),
    ),
  );
  expect(unknownOf(texts)).toEqual([]);
});

describe('in another language', () => {
  beforeAll(() => {
    vi.stubGlobal('navigator', { languages: ['sw'] });
    vi.stubGlobal('localStorage', { setItem: () => undefined });
    vi.stubGlobal('document', { documentElement: {} });
  });
  // Other files read the same modules after this one.
  afterAll(async () => {
    await chooseLanguage('en');
    vi.unstubAllGlobals();
  });

  test('the place is put in its words, names stay, and free text is left to its own language', async () => {
    expect(toldHere('Nothing to do now.')).toBeUndefined();
    await chooseLanguage('sw');
    const [dig] = stepsOf(anAlarm(), BEDS[0]).filter(({ text }) => text.startsWith('Dig'));
    expect(toldHere(dig?.text ?? '', 'chini kabisa')).toBe(
      'Chimba hapa kwanza: chini kabisa, ndani ya 15 cm kutoka hapo. Gusa na unuse mchanga unapoendelea chini.',
    );
    expect(toldHere('Find probe p07 of Pit A.')).toBe('Tafuta kipimo p07 cha Pit A.');
    expect(toldHere('Rotting roots warm the sand around them. Somebody added this.')).toBeUndefined();
    expect(toldHere('all good roots')).toBeUndefined();
    expect(toldHere('all 2')).toBe('vyote 2');
    expect(toldHere('14 days after it was filled')).toBe('siku 14 baada ya kujazwa');
    await chooseLanguage('en');
  });
});
