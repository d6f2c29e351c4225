/** Words and numbers of an answer, in any script. */
import { describe, expect, test } from 'vitest';
import { fold } from '../../../../services/core/alarms/answers/fold.js';
import { tokensOf } from '../../../../services/core/alarms/answers/tokens.js';

describe('folding', () => {
  test.each([
    ['ƁƊƘƳ ɓɗƙƴ', 'bdky bdky'],
    ['TROUVÉ e\u0301', 'trouve e'],
    ["d'accord d’accord sa`a", 'daccord daccord saa'],
    ['İstop', 'istop'],
    ['ＯＫ', 'ok'],
    ['0K 10k', 'ok 10k'],
    ['እሺ', 'እሺ'],
  ])('%s', (text, folded) => {
    expect(fold(text)).toBe(folded);
  });
});

describe('numbers', () => {
  test.each([
    ['12', 12],
    ['١٢', 12],
    ['१२', 12],
    ['๑๒', 12],
    ['𝟙𝟚', 12],
    ['𝟿', 9],
    ['９', 9],
    ['፱', 9],
    ['፲', 10],
    ['፺፱', 99],
    ['፻', 100],
    ['፪፻፲፩', 211],
  ])('%s', (text, value) => {
    expect(tokensOf(text)).toMatchObject([{ type: 'number', value }]);
  });

  test('and words are parted where letters meet digits', () => {
    expect(tokensOf('ok3, 6h')).toEqual([
      { type: 'word', word: 'ok', before: '' },
      { type: 'number', value: 3, digits: 1, before: '' },
      { type: 'number', value: 6, digits: 1, before: ', ' },
      { type: 'word', word: 'h', before: '' },
    ]);
  });
});
