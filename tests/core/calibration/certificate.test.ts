import { describe, expect, test } from 'vitest';
import {
  CALIBRATED_AT,
  saltCalibration,
  someCalibration,
  unevenCalibration,
} from '../../support/a-calibration.js';
import { codeOf } from '../physics/refused.js';
import { column, entryOf, of, sectionOf, tableOf, textOf } from './read-certificate.js';

describe('what it says of itself', () => {
  const document = of(someCalibration());

  test('is a working calibration, and no accredited one', () => {
    expect(document.title).toContain('working calibration');
    expect(document.statement.join(' ')).toMatch(
      /not an accredited calibration: nobody has assessed it under ISO\/IEC 17025/,
    );
    expect(document.statement.join(' ')).toContain('Sandlarder 0.1.0');
    expect(document.statement.join(' ')).toContain('JCGM 100:2008');
  });

  test('traceability is as entered', () => {
    const section = sectionOf(document, 'Reference');
    expect(section.notes).toContain('Traceability is as entered by the technician, not checked.');
    expect(entryOf(document, 'Certificate')).toBe('LMD 25-118');
  });

  test('who, when, from when on, in the zone of the site', () => {
    expect(entryOf(document, 'Done by')).toBe('Wanja Oduya');
    expect(entryOf(document, 'Done at')).toBe('2026-03-14 12:00 +03:00');
    expect(entryOf(document, 'Holds for readings from')).toBe('2026-03-04 12:00 +03:00');
    expect(entryOf(of(someCalibration(), { timeZone: null }), 'Done at')).toBe('2026-03-14 09:00 +00:00');
  });

  test('the same record twice is the same document', () => {
    expect(textOf(of(someCalibration()))).toBe(textOf(document));
  });

  test('a zone that nobody knows is refused', () => {
    expect(codeOf(() => of(someCalibration(), { timeZone: 'Moon/Sea' }))).toBe('OUT_OF_DOMAIN');
  });
});

describe('what was not entered', () => {
  const bare = someCalibration({ reference: { name: 'A thermometer' }, conditions: {}, bench: null });
  const document = of(bare, { probeModel: null });

  test('is said not to have been', () => {
    for (const label of ['Model of the probe', 'Serial number', 'Due on', 'Air pressure'])
      expect(entryOf(document, label)).toBe('not entered');
    expect(entryOf(document, 'Points taken')).toBe('elsewhere, and entered');
  });

  test('without traceability it warns; salts alone need none', () => {
    expect(document.warnings).toEqual(['Nothing was entered of how the reference is traceable.']);
    expect(of(saltCalibration()).warnings).toEqual([]);
  });
});

describe('warnings', () => {
  test('a sound one in force has none', () => {
    expect(of(someCalibration()).warnings).toEqual([]);
  });

  test('superseded, by which', () => {
    const document = of(someCalibration(), { supersededBy: 'cal-2026-0009', inForce: false });
    expect(document.warnings).toEqual([
      'Superseded: calibration cal-2026-0009 stands in the place of this one. Do not use it.',
    ]);
    expect(entryOf(document, 'Superseded by')).toBe('cal-2026-0009');
  });

  test('not in force', () => {
    expect(of(someCalibration(), { inForce: false }).warnings).toHaveLength(1);
  });

  // Of the day in the zone of the site: 22:30 UTC on the 14th is the 15th in Nairobi.
  test.each([
    ['2026-03-14', 1],
    ['2026-03-15', 0],
  ])('reference due on %s: %d', (dueOn, count) => {
    const doneAt = CALIBRATED_AT + 13.5 * 3_600_000;
    const record = someCalibration({ doneAt, reference: { name: 'R', certificate: 'C', dueOn } });
    expect(of(record).warnings).toHaveLength(count);
  });
});

describe('points', () => {
  test('all are listed, used or not, with what became of them', () => {
    const document = of(unevenCalibration());
    const table = tableOf(document, 'All points');
    expect(column(table, 'Nr')).toEqual(['1', '2', '3', '4', '5', '6', '7']);
    expect(column(table, '')).toEqual(['', '', 'outlier', '', '', 'left out', '']);
    expect(column(table, 'Residual / its s')[5]).toBe('–');
    expect(column(table, 'Residual')[5]).toMatch(/^\+0\.2\d\d$/);
  });

  test('the one left out has its reason, the outlier its bound', () => {
    const remarks = tableOf(of(unevenCalibration()), 'Points left out');
    expect(column(remarks, 'Nr')).toEqual(['3', '6']);
    expect(column(remarks, 'Why')[1]).toBe('The bath was opened while it was read.');
    expect(column(remarks, 'Why')[0]).toMatch(/is 2\.0 of its own standard deviations, where up to 1\.9 /);
  });

  test('no table of remarks where there are none', () => {
    expect(sectionOf(of(someCalibration()), 'Points').tables).toHaveLength(1);
  });

  test('each to the place of its reference', () => {
    const table = tableOf(of(someCalibration()), 'All points');
    const [first = []] = table.rows;
    // Indicated 4.12, reference 4.12 + 0.31 + 0.012 * 15.88 + 0.008 = 4.629; u 0.04; scatter 0.03 of 12.
    expect(first.slice(3, 9)).toEqual(['4.120', '0.030', '12', '4.629', '0.040', '+0.509']);
    expect(first[1]).toBe('2026-03-14 09:05 +03:00');
  });

  test('salts with their name and temperature, what was not noted as –', () => {
    const [first = []] = tableOf(of(saltCalibration()), 'All points').rows;
    expect(first[2]).toBe('over salt, magnesium chloride, 25 °C');
    expect(first.slice(4, 6)).toEqual(['–', '–']);
  });

  test('a fit that speaks of a point that is not there is refused', () => {
    const record = someCalibration();
    const few = { ...record, points: record.points.slice(0, 3) };
    expect(codeOf(() => of(few))).toBe('OUT_OF_DOMAIN');
  });
});

describe('before and after', () => {
  test('as found, against its tolerance', () => {
    const document = of(someCalibration());
    expect(entryOf(document, 'Largest error as found')).toBe(
      '-0.497 °C, standard uncertainty 0.043 °C, at an indicated 4.120 °C',
    );
    expect(entryOf(document, 'Against the tolerance')).toMatch(/^kept, but not for certain/);
    expect(entryOf(of(saltCalibration()), 'Against the tolerance')).toMatch(/^exceeded; the distance/);
  });

  test('change since last time, and whether it is seen', () => {
    expect(entryOf(of(someCalibration()), 'Change since last time')).toMatch(
      /^at most \+0\.214 °C.*: more than/,
    );
    const change = { change: 0.1, standardUncertainty: 0.058, indicated: 5 };
    expect(entryOf(of(someCalibration({ change })), 'Change since last time')).toMatch(
      /: within its expanded/,
    );
  });

  test('no change: the first, or nothing in common', () => {
    expect(entryOf(of(saltCalibration()), 'Change since last time')).toBe('none: it is the first');
    expect(entryOf(of(saltCalibration({ before: 'cal-1' })), 'Change since last time')).toMatch(/^unknown/);
  });

  test('which record stands in the place of which', () => {
    expect(entryOf(of(someCalibration({ supersedes: 'cal-2026-0006' })), 'Stands in the place of')).toBe(
      'cal-2026-0006',
    );
    expect(entryOf(of(someCalibration()), 'Calibration in force before')).toBe('cal-2025-0003');
  });

  test('cautions only where a salt was used', () => {
    expect(textOf(of(saltCalibration()))).toContain('gloves');
    expect(textOf(of(someCalibration()))).not.toContain('gloves');
  });
});
