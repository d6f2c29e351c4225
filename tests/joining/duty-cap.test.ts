/** Somebody's webhook takes CAP 1.2: one message an alarm, each in its place among those that it had. */
import { describe, expect, test } from 'vitest';
import { readCap, textAt } from '../core/alarms/cap-reader.js';
import { aBed, aKeeper, clock, type Duty, openDuty, PHONE, SITE } from '../support/duty.js';

const TO = 'https://feed.example/cap';
const FEED = { via: 'webhook', to: TO, body: 'cap' } as const;
const CHECK = { kind: 'damp', action: 'check', priority: 'medium' } as const;

const siteWith = (reach: readonly object[], part: object = {}) => ({
  ...SITE,
  beds: ['pit-a', 'pit-b', 'pit-c', 'pit-d', 'pit-e'].map((id) => aBed(id)),
  people: [aKeeper('ana', { reach, language: 'fr', quiet: undefined, ...part })],
});

const withFeed = (reach: readonly object[] = [FEED]): Duty =>
  openDuty(siteWith(reach), { hasWay: () => true });

interface Posted {
  readonly key: string;
  readonly identifier: string;
  readonly msgType: string;
  readonly references: string | undefined;
  readonly xml: string;
}

/** What waits for the feed now. */
const waiting = ({ registry }: Duty): Posted[] =>
  registry.outbox
    .due(Number.MAX_SAFE_INTEGER, 100)
    .filter(({ to }) => to === TO)
    .map(({ key, body: xml }) => {
      const alert = readCap(xml);
      const of = (name: string): string => textAt(alert, name) ?? '';
      const [identifier, msgType] = [of('identifier'), of('msgType')];
      return { key, xml, identifier, msgType, references: textAt(alert, 'references') };
    });

/** Plans, and takes what is posted to the feed by then. */
function posted(duty: Duty): Posted[] {
  duty.plan();
  const some = waiting(duty);
  duty.deliver();
  return some;
}

const named = (references: string | undefined): string[] =>
  (references ?? '').split(' ').map((reference) => reference.split(',')[1] ?? '');

describe('an alarm', () => {
  test('is an alert, told again an update, over an update with the all-clear, each of all before it', () => {
    const duty = withFeed();
    duty.raise('pit-a');
    const [first, ...none] = posted(duty);
    expect(none).toEqual([]);
    expect(first).toMatchObject({ msgType: 'Alert', references: undefined });
    duty.pass(24 * 60 + 1);
    const [again] = posted(duty);
    expect(again?.msgType).toBe('Update');
    expect(named(again?.references)).toEqual([first?.identifier]);
    duty.pass(60);
    duty.clear('pit-a');
    const [over] = posted(duty);
    expect(over).toMatchObject({ msgType: 'Update' });
    expect(over?.xml).toMatch(/<responseType>AllClear</);
    expect(named(over?.references)).toEqual([first?.identifier, again?.identifier]);
    expect(new Set([first, again, over].map((one) => one?.identifier)).size).toBe(3);
  });

  test('refers to a message by the very time that it was sent with', () => {
    const duty = withFeed();
    duty.raise('pit-a');
    const [first] = posted(duty);
    duty.pass(61);
    duty.clear('pit-a');
    const [over] = posted(duty);
    const alert = readCap(first?.xml ?? '');
    expect(over?.references).toBe(
      ['sender', 'identifier', 'sent'].map((name) => textAt(alert, name)).join(','),
    );
  });

  test('that late readings take back is cancelled', () => {
    const duty = withFeed();
    duty.raise('pit-a');
    const [first] = posted(duty);
    duty.pass(30);
    duty.retell('pit-a', () => []);
    const [back] = posted(duty);
    expect(back?.msgType).toBe('Cancel');
    expect(named(back?.references)).toEqual([first?.identifier]);
  });

  test('is in English, whatever the language of whom it is for, and holds no link to answer with', () => {
    const duty = withFeed();
    duty.raise('pit-a');
    const [first] = posted(duty);
    expect(first?.xml).toContain('<language>en</language>');
    expect(first?.xml).toContain('Open and unpack today.');
    expect(first?.xml).not.toMatch(/answer\?t=|Ouvrir/);
  });
});

describe('an end that people know of, because they opened the bed', () => {
  const endOf = (reach: readonly object[]): Duty => {
    const duty = withFeed(reach);
    duty.raise('pit-a');
    duty.plan();
    duty.deliver();
    duty.pass(60);
    const found = { by: 'Ana', opened: true, repacked: true, found: ['rot' as const] };
    duty.station.inTransaction(() => duty.views.inspect('pit-a', { at: duty.now(), ...found }));
    duty.clear('pit-a');
    return duty;
  };

  test('is told to the feed, which would show the alarm until then; once', () => {
    const duty = endOf([FEED]);
    const [over, ...others] = posted(duty);
    expect(others).toEqual([]);
    expect(over?.xml).toMatch(/<msgType>Update<.*<responseType>AllClear</s);
    duty.pass(60);
    expect(posted(duty)).toEqual([]);
  });

  test.each([
    ['a short message', [{ via: 'sms', to: PHONE.ana }, FEED]],
    ['a webhook that takes JSON', [{ via: 'webhook', to: 'https://other.example/' }]],
  ])('is not told to whoever was told by %s', (_way, reach) => {
    const duty = endOf(reach);
    duty.plan();
    const raised = duty.registry.outbox
      .due(Number.MAX_SAFE_INTEGER, 100)
      .filter(({ via }) => via !== 'console');
    expect(raised).toEqual([]);
  });
});

describe('several alarms', () => {
  test('that a person would hear of in one message of the morning are one message each', () => {
    const duty = withFeed();
    for (const bed of ['pit-a', 'pit-b', 'pit-c']) duty.raise(bed, CHECK);
    duty.goTo(clock('06:30', 2));
    const some = posted(duty);
    expect(some.map(({ msgType }) => msgType)).toEqual(['Alert', 'Alert', 'Alert']);
    expect(new Set(some.map(({ key }) => key)).size).toBe(3);
    duty.pass(1);
    expect(posted(duty)).toEqual([]);
  });

  test('are one message each in a storm too', () => {
    const duty = withFeed();
    for (const letter of 'abcde') duty.raise(`pit-${letter}`);
    expect(posted(duty)).toHaveLength(5);
  });

  test('that waited through a night are not merged', () => {
    const duty = withFeed();
    for (const bed of ['pit-a', 'pit-b']) duty.raise(bed);
    duty.plan();
    const before = waiting(duty).map(({ key }) => key);
    duty.fail('webhook', 2);
    duty.pass(120);
    duty.plan();
    expect(waiting(duty).map(({ key }) => key)).toEqual(before);
  });
});

test('whoever heard of the beginning another way gets an end that refers to the alarm as it can be asked for', () => {
  const duty = withFeed([{ via: 'sms', to: PHONE.ana }, FEED]);
  const id = duty.raise('pit-a');
  expect(posted(duty)).toEqual([]);
  duty.registry.answers.stop('sms', PHONE.ana, duty.now());
  duty.pass(90);
  duty.clear('pit-a');
  const [over] = posted(duty);
  expect(over?.msgType).toBe('Update');
  expect(named(over?.references)).toEqual([`${id}.raised`]);
});

test('a message that was given up is referred to no more', () => {
  const duty = withFeed();
  duty.raise('pit-a');
  duty.plan();
  const [lost] = waiting(duty);
  duty.registry.outbox.givenUp(lost?.key ?? '', duty.now(), 'refused');
  duty.pass(25 * 60);
  const [again] = posted(duty);
  expect(again).toMatchObject({ msgType: 'Alert', references: undefined });
});

test('a drill is an exercise', () => {
  const duty = withFeed();
  duty.station.inTransaction(() => duty.drills.start('pit-a', 'Technician'));
  const [drill] = waiting(duty);
  expect(drill?.xml).toContain('<status>Exercise</status>');
  expect(drill?.xml).toContain('<headline>TEST, no alarm: Pit A.');
});
