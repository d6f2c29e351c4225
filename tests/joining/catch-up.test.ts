import { expect, test } from 'vitest';
import { sandWatch } from '../../services/core/watch/sand-watch.js';
import type { Watch } from '../../services/core/watch/watch.js';
import { CatchUp } from '../../services/joining/catch-up.js';
import { makeSeason, SHORT_SEASON, siteOf } from '../support/season.js';
import { openStation } from '../support/station.js';

/** Time that passes only when it is waited for. */
function handTimer() {
  const waiting: { at: number; call: () => void }[] = [];
  let now = 0;
  return {
    clock: () => now,
    after: (delay_ms: number, call: () => void) => {
      const entry = { at: now + delay_ms, call };
      waiting.push(entry);
      return () => void waiting.splice(waiting.indexOf(entry), 1);
    },
    get planned(): number {
      return waiting.length;
    },
    pass: () => {
      const next = waiting.shift();
      if (!next) return undefined;
      const rested = next.at - now;
      now = next.at;
      next.call();
      return rested;
    },
  };
}

const season = makeSeason({ ...SHORT_SEASON, days: 6 });
const early = season.messages.slice(0, season.messages.length / 2);
const late = season.messages.slice(season.messages.length / 2);

function dirtyStation(watch: Watch = sandWatch) {
  const station = openStation({ watch });
  station.load(siteOf(SHORT_SEASON));
  station.commit(late);
  station.commit(early);
  return station;
}

test('late readings are judged in one run, and then there is nothing to do', () => {
  const { station } = dirtyStation();
  const timer = handTimer();
  const catchUp = new CatchUp(station, { ...timer, onError: () => undefined, onDone: () => undefined });
  expect(station.dirty()).toHaveLength(1);
  catchUp.kick();
  catchUp.kick();
  expect(timer.planned).toBe(1);
  timer.pass();
  expect(station.dirty()).toEqual([]);
  expect(timer.planned).toBe(0);
});

test('after closing nothing is judged any more', () => {
  const { station } = dirtyStation();
  const timer = handTimer();
  const catchUp = new CatchUp(station, { ...timer, onError: () => undefined, onDone: () => undefined });
  catchUp.kick();
  catchUp.close();
  expect(timer.planned).toBe(0);
  expect(station.dirty()).toHaveLength(1);
});

test('a bed whose watch fails is tried again after a long rest', () => {
  let broken = false;
  const watch: Watch = {
    version: 'sometimes',
    open: () => ({
      step: () => {
        if (broken) throw new Error('cannot judge');
        return { changes: [], judgements: new Map(), flags: new Map() };
      },
      standing: () => ({ basis: '', learning: false }),
      checkpoint: () => '{}',
    }),
  };
  const { station } = dirtyStation(watch);
  broken = true;
  const timer = handTimer();
  const catchUp = new CatchUp(station, { ...timer, onError: () => undefined, onDone: () => undefined });
  catchUp.kick();
  timer.pass();
  expect(station.failures.get('pit-t')).toBe('cannot judge');
  broken = false;
  expect(timer.pass()).toBe(5000);
  expect(station.failures.size).toBe(0);
  expect(station.dirty()).toEqual([]);
});
