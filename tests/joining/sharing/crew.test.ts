import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { Crew } from '../../../services/joining/sharing/crew.js';
import { temporaryDirectory } from '../../support/open.js';

function joined(folder: string): Crew {
  const crew = new Crew(folder);
  onTestFinished(() => crew.leave());
  return crew;
}

const ABOUT = {
  pid: 1,
  url: 'http://127.0.0.1:8080',
  held: [{ partition: 3, url: 'http://127.0.0.1:8104' }],
};

test('workers see each other and what each says', () => {
  const folder = temporaryDirectory();
  const [one, other] = [joined(folder), joined(folder)];
  one.say(ABOUT);
  expect(other.others()).toEqual(new Map([[one.name, ABOUT]]));
  expect([...one.others().keys()]).toEqual([other.name]);
});

test('one that has not said anything yet lives and holds nothing', () => {
  const folder = temporaryDirectory();
  const [one, other] = [joined(folder), joined(folder)];
  expect(other.others().get(one.name)).toMatchObject({ held: [] });
});

test('one that left is gone at once', () => {
  const folder = temporaryDirectory();
  const [one, other] = [new Crew(folder), joined(folder)];
  one.say(ABOUT);
  one.leave();
  expect(other.others().size).toBe(0);
});

test('what a dead worker left of itself counts for nothing and is cleared away', () => {
  const folder = temporaryDirectory();
  const crew = joined(folder);
  const dead = join(folder, 'workers', 'w00000000');
  mkdirSync(dead);
  writeFileSync(join(dead, 'about.json'), JSON.stringify(ABOUT));
  expect(crew.others().size).toBe(0);
  expect(readdirSync(join(folder, 'workers'))).toEqual([crew.name]);
});

test.each(['', 'null', '{"pid":1}', '{"pid":1,"url":"x","held":[{"partition":-1,"url":""}]}'])(
  'a living worker that says %j holds nothing',
  (text) => {
    const folder = temporaryDirectory();
    const [one, other] = [joined(folder), joined(folder)];
    writeFileSync(join(folder, 'workers', one.name, 'about.json'), text);
    expect(other.others().get(one.name)).toEqual({ pid: 0, url: '', held: [] });
  },
);
