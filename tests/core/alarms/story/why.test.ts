import { describe, expect, test } from 'vitest';
import { evidenceName } from '../../../../services/core/alarms/story/evidence-table.js';
import { whyOf } from '../../../../services/core/alarms/story/index.js';
import { anAlarm } from '../an-alarm.js';

/** As the watch gives them: over warmth, damp, thermal time, reading quality. */
const GIVEN = [
  ...[
    'probe',
    'excess_C',
    'excessAt',
    'probes',
    'power_W',
    'onsetAt',
    'strength',
    'since',
    'dueAt',
    'because',
  ],
  ...['fault', 'quantity', 'drift_C_per_day', 'shift_C', 'degreeDays', 'species', 'source'],
  ...['humidity_RH', 'rise_RH', 'slope_RH_per_day', 'forecast_RH', 'held_h', 'threshold_RH', 'before_RH'],
  ...['class', 'dampProbability', 'swingShare', 'diffusivity_m2_s', 'uncertaintyFactor', 'against'],
  ...['change_C', 'dewPoint_C', 'sand_C', 'vapourDensity_g_m3', 'vapourDensityExpected_g_m3'],
  ...['saturation_g_m3', 'air'],
];

test.each(GIVEN)('%s has words of its own', (name) => {
  expect(evidenceName(name, 1).label).not.toBe(name);
});

describe('a name that nobody has put in words', () => {
  test.each([
    ['later_C', 1, '°C'],
    ['later_RH_per_day', 1, '%RH/day'],
    ['laterAt', '2026-05-24T15:00:00Z', 'time'],
    ['later', 3, '1'],
    ['later', 'word', null],
  ])('%s is shown as it is', (name, value, unit) => {
    expect(whyOf(anAlarm({ evidence: { [name]: value } }), {})).toMatchObject([
      { name, label: name, value, unit, thresholds: [] },
    ]);
  });
});

describe('in the words of a keeper', () => {
  test.each([
    ['strength', 17.5, 'very sure'],
    ['species', 'cylas-brunneus', 'sweet potato weevil, Cylas brunneus'],
    ['because', 'two-weeks', 'two weeks since the last look are over'],
    ['because', 'toString', null],
    ['strength', Number.NaN, null],
    ['probe', 'p01', null],
    ['excess_C', 1.8, null],
  ])('%s of %s is %s', (name, value, inWords) => {
    expect(whyOf(anAlarm({ evidence: { [name]: value } }), {})[0]?.inWords).toBe(inWords);
  });

  test('times are by the clock of the site', () => {
    const evidence = { onsetAt: '2026-05-24T15:00:00Z' };
    expect(whyOf(anAlarm({ evidence }), {}, 'Africa/Lusaka')[0]?.text).toBe(
      'it began about 2026-05-24 17:00 +02:00',
    );
  });
});

describe('held against', () => {
  test.each([
    ['damp', 'unpack', { humidity_RH: 98, held_h: 50 }, ['damp_unpack_RH', 'damp_unpack_h']],
    ['damp', 'check', { rise_RH: 7, probes: 1 }, ['damp_rise_RH']],
    ['damp', 'check', { rise_RH: 4, probes: 2 }, ['damp_rise_together_RH']],
    ['damp', 'check', { swingShare: 0.2 }, ['damp_swing_share']],
    ['wetting', 'unpack', { humidity_RH: 98 }, ['wetting_rise_RH']],
    ['condensation', 'check', { dewPoint_C: 22 }, ['condensation_margin_C', 'condensation_h']],
    ['sprouting', 'check', { degreeDays: 290 }, ['sprouting_sum_C_days', 'sprouting_base_C']],
    ['weevil', 'check', { degreeDays: 390, species: 'cylas-brunneus' }, ['weevil_brunneus_sum_C_days']],
    ['weevil', 'check', { degreeDays: 390, species: '__proto__' }, []],
    [
      'inspection-due',
      'check',
      { because: 'two-weeks', dueAt: '2026-05-24T15:00:00Z' },
      ['inspect_every_days'],
    ],
    ['inspection-due', 'check', { because: 'constructor', dueAt: '2026-05-24T15:00:00Z' }, []],
    ['probe-fault', 'service', { fault: 'stuck', since: '2026-05-24T15:00:00Z' }, []],
  ] as const)('%s to %s with %j: %j', (kind, action, evidence, names) => {
    const why = whyOf(anAlarm({ kind, action, evidence }), {});
    expect(why.flatMap(({ thresholds }) => thresholds.map(({ name }) => name))).toEqual(names);
  });

  test('the bed before the site before the default', () => {
    const damp = anAlarm({ kind: 'damp', action: 'check', evidence: { held_h: 50 } });
    const heldBy = (site?: object, bed?: object) => whyOf(damp, { site, bed })[0]?.thresholds[0];
    expect(heldBy()).toMatchObject({ value: 48, setFor: 'default' });
    expect(heldBy({ damp_check_h: 36 })).toMatchObject({ value: 36, setFor: 'site' });
    expect(heldBy({ damp_check_h: 36 }, { damp_check_h: 24 })).toMatchObject({ value: 24, setFor: 'bed' });
  });
});
