/** `sandlarder trial power | new | assign | correct | list | beds | report`: the last of them before a service that listens. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { bedOf } from '../../services/commands/trials/flags.js';
import { type PowerFlags, power } from '../../services/commands/trials/power.js';
import {
  addTrial,
  assignTrial,
  correctTrial,
  listTrials,
  type NewFlags,
  showBeds,
} from '../../services/commands/trials/records.js';
import { report } from '../../services/commands/trials/report.js';
import { BOXES, trialApp } from '../support/a-trial.js';
import { day } from '../support/ledger.js';

const refused = (sentence: RegExp) =>
  expect.objectContaining({ code: 'WRONG_USAGE', message: expect.stringMatching(sentence) });

describe('power', () => {
  const flags: PowerFlags = {
    ...{ difference: '10', sd: '8', treatments: '2', design: 'complete', alpha: '0.05', power: '0.8' },
  };
  const said = (change: Partial<PowerFlags>): string => {
    const lines: string[] = [];
    power({ ...flags, ...change }, (line) => void lines.push(line));
    return lines.join('\n');
  };

  test('says how many beds, what they find and how often they cry wolf', () => {
    // [C: 1.25 standard deviations, noncentral t: 12 beds of each give 0.83, 11 give 0.80 less]
    expect(said({})).toMatch(
      /^12 beds of each of 2 treatments, 24 in all\.\nWhere two .* in 8\d of 100; where none differ, it cries wolf in 5 of 100/,
    );
    expect(said({ beds: '4' })).toMatch(/^4 beds of each .* finds it in 3\d of 100/s);
    expect(said({ treatments: '4', design: 'blocks' })).toMatch(
      /\(1\d blocks\).*All other treatments are taken to lie midway/s,
    );
    expect(JSON.parse(said({ json: true }))).toMatchObject({
      bedsOfEach: 12,
      bedsInAll: 24,
      power: expect.closeTo(0.83, 1),
    });
  });

  test.each<[Partial<PowerFlags>, RegExp]>([
    [{ difference: '0' }, /--difference: expected a number/],
    [{ sd: '-1' }, /--sd: expected a number/],
    [{ treatments: '1' }, /--treatments: expected a number from 2/],
    [{ treatments: '2.5' }, /--treatments: expected a whole number/],
    [{ design: 'latin' }, /--design: expected complete or blocks, got "latin"/],
    [{ power: '1' }, /--power: expected a number from 0.5 to 0.999/],
    [{ alpha: 'x' }, /--alpha: expected a number/],
    [{ beds: '1' }, /--beds: expected a number from 2/],
  ])('refuses %j', (change, sentence) => {
    expect(() => said(change)).toThrow(refused(sentence));
  });
});

test('beds are named with blocks and treatments', () => {
  expect(['a', 'a=north', 'a:fine', 'a=north:fine sand'].map(bedOf)).toEqual([
    { bed: 'a' },
    { bed: 'a', block: 'north' },
    { bed: 'a', treatment: 'fine' },
    { bed: 'a', block: 'north', treatment: 'fine sand' },
  ]);
  for (const text of ['', '=north', ':fine', 'a=', 'a:', 'a=:fine'])
    expect(() => bedOf(text), text).toThrow(refused(/--beds: expected BED, BED=BLOCK/));
});

describe('before a service', () => {
  async function served() {
    const { app, get } = await trialApp();
    const service = await app.listen({ host: '127.0.0.1', port: 0 });
    onTestFinished(() => app.close());
    const lines: string[] = [];
    const say = (line: string): void => void lines.push(line);
    return { service, get, say, taken: () => lines.splice(0).join('\n') };
  }

  test('a trial is drawn, corrected, listed, and its result told with sizes first', async () => {
    const { service, say, taken } = await served();
    await assignTrial('sand-one', { service, by: 'Wanja', at: day(1), seed: '7' }, say);
    expect(taken()).toMatch(
      /treatments were drawn with seed 7 by Wanja.*PCG32.*\n {2}box-1, block row 1: (fine|coarse)/s,
    );
    await correctTrial('sand-one', { service, by: 'Wanja', at: day(2), reason: 'name', name: 'Sand' }, say);
    expect(taken()).toMatch(/^sand-one: Sand; fine, coarse; 6 beds, from 2026-05-04\n.*drawn with seed 7/s);
    await listTrials({ service }, say);
    expect(taken()).toBe('sand-one: Sand; fine, coarse; 6 beds, from 2026-05-04');
    await report('sand-one', { service }, say);
    const told = taken();
    expect(told).toMatch(/6 of 6 beds have a value/);
    expect(told.indexOf('Differences')).toBeLessThan(told.indexOf('How surely'));
    expect(told).toMatch(/Treatments given anew to the same beds/);
  });

  test('a new one, with treatments given by hand, is said to be no draw', async () => {
    const { service, say, taken } = await served();
    const flags: NewFlags = {
      ...{
        service,
        by: 'Wanja',
        at: day(1),
        name: 'Old',
        from: day(-300),
        to: day(-200),
        design: 'complete',
      },
      ...{ treatments: ['fine', 'coarse'], outcome: 'loss', day: '90' },
      beds: BOXES.map((bed, at) => `${bed}:${at < 3 ? 'fine' : 'coarse'}`),
    };
    await addTrial('old-one', { ...flags, described: ['fine=sieved at 1 mm'] }, say);
    expect(taken()).toMatch(
      / {2}fine: sieved at 1 mm\n {2}treatments were given by hand: chance did not choose/,
    );
    const change = { service, by: 'Wanja', reason: 'said', at: day(1), described: ['coarse=a=b'] };
    await correctTrial('old-one', change, say);
    expect(taken()).toMatch(/fine: sieved at 1 mm\n {2}coarse: a=b/);
    for (const text of ['fine', '=x', 'fine='])
      await expect(correctTrial('old-one', { ...change, described: [text] }, say)).rejects.toThrow(
        refused(/--described: expected TREATMENT=TEXT/),
      );
    await showBeds('old-one', { service, json: true }, say);
    expect(JSON.parse(taken())).toMatchObject({ trial: 'old-one', assigned: { how: 'hand' } });
    await expect(addTrial('old-one', { ...flags, day: 'soon' }, say)).rejects.toThrow(
      refused(/--day: expected a number/),
    );
    await expect(addTrial('old-one', { ...flags, outcome: 'taste' }, say)).rejects.toThrow(
      refused(/outcome.kind: expected "loss"/),
    );
    await expect(addTrial('Old One', flags, say)).rejects.toThrow(refused(/trial: expected 1 to 32/));
    await expect(addTrial('old-one', flags, say)).rejects.toThrow(
      /got "old-one", which is there: "sandlarder trial correct old-one" corrects/,
    );
    await expect(correctTrial('old-one', { ...change, treatments: ['a', 'b'] }, say)).rejects.toThrow(
      refused(/^--treatments: expected .* among them, .*trial assign old-one/),
    );
    await expect(report('none', { service }, say)).rejects.toThrow(/no trial has the id "none"/);
  });
});
