import { describe, expect, test } from 'vitest';
import { rotStanding } from '../../../services/core/keeping/index.js';
import type { Inspection } from '../../../services/core/model/inspection.js';
import { dayOf } from './some-stock.js';

const look = (days: number, change: Partial<Inspection> = {}): Inspection => ({
  ...{ id: String(days), bed: 'pit-t', at: dayOf(days), by: 'Wanja' },
  ...{ opened: true, repacked: false, found: ['nothing'], ...change },
});
const rot = (days: number, change: Partial<Inspection> = {}): Inspection =>
  look(days, { found: ['rot'], looked: 10, rotten: 2, ...change });
const thrown = (roots: number, were?: 'rotten' | 'weevil') => ({
  out: [{ reason: 'thrown' as const, roots, ...(were && { were }) }],
});

describe('rot that was found', () => {
  test.each([
    ['nothing said of it', rot(5)],
    ['only smelled, without opening', look(5, { opened: false, found: ['rot'], smell: 'rotten' })],
    ['found and not counted, though some was thrown', look(5, { found: ['rot'], looked: 5, ...thrown(2) })],
    ['fewer thrown than were rotten', rot(5, thrown(1))],
    ['others thrown than those', rot(5, thrown(2, 'weevil'))],
    ['rotten roots eaten by the record', rot(5, { out: [{ reason: 'eaten', roots: 2 }] })],
  ])('is left: %s', (_, left) => {
    expect(rotStanding([left])).toEqual({ left: { since: dayOf(5), at: dayOf(5) }, overAt: null });
  });

  test.each([
    ['repacked', rot(5, { repacked: true })],
    ['as many thrown as were rotten', rot(5, thrown(2))],
    ['thrown as rotten', rot(5, thrown(2, 'rotten'))],
    ['none was found', look(5)],
  ])('is not left: %s', (_, done) => {
    expect(rotStanding([done])).toEqual({ left: null, overAt: null });
  });

  test('stays until a later look or repacking deals with it, and no longer', () => {
    expect(rotStanding([rot(5), rot(7)]).left).toEqual({ since: dayOf(5), at: dayOf(7) });
    expect(rotStanding([rot(5), look(6)])).toEqual({ left: null, overAt: dayOf(6) });
    expect(rotStanding([rot(5), rot(6, { repacked: true })])).toEqual({ left: null, overAt: dayOf(6) });
    expect(rotStanding([rot(5), look(6), rot(8)])).toEqual({
      left: { since: dayOf(8), at: dayOf(8) },
      overAt: dayOf(6),
    });
  });

  test('is not dealt with by somebody who did not open the bed', () => {
    expect(rotStanding([rot(5), look(6, { opened: false })]).left).not.toBeNull();
  });
});
