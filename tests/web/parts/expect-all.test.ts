import { expect, test } from 'vitest';
import { expectAll, NotAsExpected } from '../../../services/web/parts/not-as-expected.js';

const wrong = (name: string) => (): never => {
  throw new NotAsExpected({ [name]: `${name} is wrong` });
};

test('what several checks find is said at once, the rest goes on', () => {
  const both = (): void => expectAll(wrong('name'), () => undefined, wrong('by'));
  expect(both).toThrow(NotAsExpected);
  try {
    both();
  } catch (error) {
    expect((error as NotAsExpected).wrongs).toEqual({ name: 'name is wrong', by: 'by is wrong' });
  }
});

test('checks that find nothing let it pass, and what else goes wrong is no wrong field', () => {
  expect(() => expectAll(() => undefined)).not.toThrow();
  const broken = (): never => {
    throw new TypeError('broken');
  };
  expect(() => expectAll(wrong('name'), broken)).toThrow(TypeError);
});
