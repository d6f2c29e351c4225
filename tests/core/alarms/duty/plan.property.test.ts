/** What holds of every plan, on sites of all kinds whose messages arrive, fail and are under way. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { localClock } from '../../../../services/core/alarms/duty/local-clock.js';
import { planTelling } from '../../../../services/core/alarms/duty/plan.js';
import { restOf } from '../../../../services/core/alarms/duty/rest.js';
import type { TellingInput } from '../../../../services/core/alarms/duty/types.js';
import { HOUR_ms } from '../../../../services/core/model/time.js';
import { live, type Sent } from './a-site.js';
import { anySite, fate } from './any-site.js';

const salt = fc.nat(1000);
const hours = fc.integer({ min: 0, max: 72 });
const RUNS = { seed: 5, numRuns: 80 };

/**
 * A site that has been told of for some hours, and what it was told. Alarms appear at their raising.
 *
 * @param number decides which messages fail; undefined: all arrive
 */
function lived(
  site: TellingInput,
  number: number | undefined,
  length_h: number,
): { input: TellingInput; sent: Sent[] } {
  const becomes = number === undefined ? undefined : fate(number);
  const until = site.now + length_h * HOUR_ms;
  const times = [...new Set([site.now, ...site.alarms.map(({ raisedAt }) => raisedAt)])];
  const changes = times.filter((time) => time >= site.now && time <= until).sort((one, other) => one - other);
  const sent: Sent[] = [];
  let told = site.told;
  changes.forEach((now, index) => {
    const alarms = knownAt(site, now);
    const life = live({ ...site, now, alarms, told }, (changes[index + 1] ?? until + 1) - 1, becomes);
    sent.push(...life.sent);
    told = life.input.told;
  });
  return { input: { ...site, now: until, alarms: knownAt(site, until), told }, sent };
}

const knownAt = (site: TellingInput, now: number): TellingInput['alarms'] =>
  site.alarms
    .filter(({ raisedAt }) => raisedAt <= now)
    .map((alarm) =>
      alarm.clearedAt === null || alarm.clearedAt <= now ? alarm : { ...alarm, clearedAt: null },
    );

test('a plan whose records are kept gives nothing more, and the same time to ask again', () => {
  fc.assert(
    fc.property(anySite, salt, hours, (site, number, length_h) => {
      const { input } = lived(site, number, length_h);
      const plan = planTelling(input);
      const again = planTelling({ ...input, told: [...input.told, ...plan.record] });
      expect(again.tell).toEqual([]);
      expect(again.record).toEqual([]);
      expect(again.nextAt).toBe(plan.nextAt);
    }),
    RUNS,
  );
});

test('the order of what comes in does not matter, and it is left as it was', () => {
  const turned = <Value>(list: readonly Value[]): readonly Value[] => Object.freeze([...list].reverse());
  fc.assert(
    fc.property(anySite, salt, hours, (site, number, length_h) => {
      const { input } = lived(site, number, length_h);
      const mirrored = {
        ...input,
        people: turned(input.people),
        beds: turned(input.beds),
        alarms: turned(input.alarms),
        told: turned(input.told),
        deadWays: turned(input.deadWays),
      };
      expect(planTelling(Object.freeze(mirrored))).toEqual(planTelling(Object.freeze(input)));
    }),
    RUNS,
  );
});

test('the time to ask again is after now; until then there is nothing; then there is something or a later time', () => {
  fc.assert(
    fc.property(
      anySite,
      salt,
      hours,
      fc.double({ min: 0, max: 1, noNaN: true }),
      (site, number, length_h, share) => {
        const { input } = lived(site, number, length_h);
        const { record, nextAt } = planTelling(input);
        const told = [...input.told, ...record];
        if (nextAt === null) {
          expect(planTelling({ ...input, told, now: input.now + share * 9000 * HOUR_ms }).tell).toEqual([]);
          return;
        }
        expect(nextAt).toBeGreaterThan(input.now);
        const between = Math.floor(input.now + share * (nextAt - 1 - input.now));
        expect(planTelling({ ...input, told, now: between }).tell).toEqual([]);
        const then = planTelling({ ...input, told, now: nextAt });
        expect(then.tell.length > 0 || then.nextAt === null || then.nextAt > nextAt).toBe(true);
      },
    ),
    RUNS,
  );
});

test('in quiet hours nobody is told of anything but an unpack that lasts', () => {
  fc.assert(
    fc.property(anySite, salt, (site, number) => {
      const clock = localClock(site.timeZone);
      const actions = new Map(site.alarms.map(({ id, action }) => [id, action]));
      for (const message of lived(site, number, 72).sent) {
        const quiet = site.people.find(({ id }) => id === message.person)?.quiet;
        if (restOf(clock, quiet, site.settings.morning).quietUntil(message.at) === undefined) continue;
        expect(message.alarms.map((id) => actions.get(id))).toEqual(message.alarms.map(() => 'unpack'));
        expect(message.events.every((event) => event === 'raised' || event === 'refined')).toBe(true);
      }
    }),
    RUNS,
  );
});

test('of one bed nobody is told more than the most of a day, but for unpacks that are new to them', () => {
  fc.assert(
    fc.property(anySite, (site) => {
      const clock = localClock(site.timeZone);
      const { input } = lived(site, undefined, 72);
      const counted = new Map<string, Set<string>>();
      const closed = new Map<string, number>();
      const heard = new Set<string>();
      for (const record of input.told) {
        const unpack = site.alarms.find(({ id }) => id === record.alarm)?.action === 'unpack';
        const fresh = unpack && record.event === 'raised' && !heard.has(`${record.alarm} ${record.person}`);
        heard.add(`${record.alarm} ${record.person}`);
        if (fresh) continue;
        const day = `${record.person} ${record.bed} ${clock.dayOf(record.at)}`;
        counted.set(day, (counted.get(day) ?? new Set()).add(record.message));
        expect(closed.get(day) ?? record.at).toBe(record.at);
        if (record.closing) closed.set(day, record.at);
      }
      for (const messages of counted.values())
        expect(messages.size).toBeLessThanOrEqual(site.settings.most_per_bed_a_day);
    }),
    RUNS,
  );
});

test('an end is told once to each, and only to whoever was told of the beginning', () => {
  fc.assert(
    fc.property(anySite, salt, (site, number) => {
      const { input } = lived(site, number, 72);
      const raised = new Set<string>();
      const ended = new Set<string>();
      for (const record of input.told.filter(({ delivered }) => delivered !== false)) {
        const key = `${record.alarm} ${record.person}`;
        if (record.event === 'cleared' || record.event === 'withdrawn') {
          expect(raised.has(key)).toBe(true);
          expect(ended.has(key)).toBe(false);
          ended.add(key);
        } else raised.add(key);
      }
    }),
    RUNS,
  );
});

test('whoever is told can be reached that way, and no key comes twice', () => {
  fc.assert(
    fc.property(anySite, salt, (site, number) => {
      const { sent } = lived(site, number, 72);
      const dead = new Set(site.deadWays.map(({ via, to }) => `${via} ${to}`));
      for (const { person, via, to } of sent) {
        expect(site.people.find(({ id }) => id === person)?.reach).toContainEqual({ via, to });
        expect(dead.has(`${via} ${to}`)).toBe(false);
      }
      expect(new Set(sent.map(({ key }) => key)).size).toBe(sent.length);
    }),
    RUNS,
  );
});

test('an open unpack that somebody should know of was told, or is named as out of reach', () => {
  fc.assert(
    fc.property(anySite, (site) => {
      const alarms = site.alarms.map((alarm) => ({
        ...alarm,
        ...{
          action: 'unpack' as const,
          clearedAt: null,
          withdrawn: false,
          acknowledgement: null,
          shelvedUntil: null,
        },
      }));
      const beds = site.beds.map((bed) => ({ ...bed, keeper: 'ridge' }));
      const people = site.people.map((person) => ({ ...person, kinds: undefined }));
      const plan = planTelling({ ...site, alarms, beds, people });
      const told = new Set(plan.tell.flatMap((message) => message.alarms));
      expect([...told, ...plan.unreachable].sort()).toEqual(alarms.map(({ id }) => id).sort());
    }),
    RUNS,
  );
});
