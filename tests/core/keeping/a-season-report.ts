/** A season of one bed, as the tests of its report have it. */
import type { CertificateSection } from '../../../services/core/calibration/certificate-document.js';
import { lossLookOf } from '../../../services/core/keeping/loss-look.js';
import type { AboutSeason } from '../../../services/core/keeping/season-report.js';
import type { BedSeason } from '../../../services/core/keeping/season-report-figures.js';
import { emptyLedger, withEntries } from '../../../services/core/keeping/stock.js';
import { dayOf, FILLED, filled, out } from './some-stock.js';

export const look = (day: number, rotten: number, weevil: number, present: number) => {
  const found = lossLookOf(dayOf(day), { looked: 40, rotten, weevil }, present);
  return found ? [found] : [];
};

export const season = (change: Partial<BedSeason> = {}): BedSeason =>
  Object.freeze<BedSeason>({
    name: 'Pit A',
    filledAt: FILLED,
    cultivar: 'orange, early',
    field: null,
    lot: '7',
    described: ROOTS,
    ledger: withEntries(emptyLedger('pit-a'), [
      filled(1, 0, 400, 110),
      out(2, 14, 40, 'sold', 11),
      out(3, 28, 3, 'thrown'),
      out(4, 90, 12),
    ]),
    inspections: [
      { at: dayOf(14), opened: true, found: ['nothing'] },
      { at: dayOf(20), opened: false, found: ['nothing'] },
      { at: dayOf(28), opened: true, found: ['rot', 'sprouts'] },
      { at: dayOf(42), opened: true, found: ['sprouts'] },
    ],
    looks: [...look(14, 0, 0, 400), ...look(28, 2, 1, 360)],
    alarms: [
      {
        kind: 'heating',
        raisedAt: dayOf(26),
        clearedAt: dayOf(29),
        foundOut: { verdict: 'right', lookedAt: dayOf(28) },
      },
      { kind: 'probe-silent', raisedAt: dayOf(30), clearedAt: null },
      { kind: 'damp', raisedAt: dayOf(-3), clearedAt: dayOf(-2) },
      { kind: 'damp', raisedAt: dayOf(61), clearedAt: null },
    ],
    days: [18, 21, 29, 30].map((mean_C, day) => ({ at: dayOf(day), mean_C })),
    ...change,
  });

export const ROOTS = { roots: 500, mass_kg: 140 };

/** A bed of which nobody wrote anything down. */
export const NOTHING = {
  ...{ ledger: emptyLedger('pit-a'), described: null, looks: [], alarms: [], inspections: [], days: [] },
};

export const ABOUT: AboutSeason = Object.freeze({
  siteName: 'Ridge station',
  groupName: null,
  timeZone: 'Africa/Lusaka',
  to: dayOf(60),
  issuedAt: dayOf(61),
  program: 'Sandlarder 0.1.0',
});

export const rowOf = (sections: readonly CertificateSection[], label: string): string | undefined =>
  sections.flatMap(({ rows }) => rows).find(([name]) => name === label)?.[1];
export const linesOf = (sections: readonly CertificateSection[], heading: string): string[] =>
  sections
    .filter((each) => each.heading === heading)
    .flatMap(({ tables }) => tables.flatMap(({ rows }) => rows.map((cells) => cells.join(' | '))));
