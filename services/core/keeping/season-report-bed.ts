/** The report of one bed: its sections, with all text finished and none marked up. */
import { FOOD_CAUTION } from '../alarms/cautions.js';
import { type CertificateSection, section } from '../calibration/certificate-document.js';
import { dayInWords } from '../calibration/certificate-words.js';
import type { LossInterval } from './loss.js';
import type { ReportedAlarm, SeasonFigures, WarmthFigures } from './season-report-figures.js';
import {
  ALARM_WORDS,
  CAUSE_WORDS,
  daysInWords,
  degrees,
  intervalInWords,
  massInWords,
  percentOf,
  STOCK_WORDS,
  sproutsInWords,
  survivalInWords,
  UNKNOWN,
  VERDICT_WORDS,
} from './season-report-words.js';

/**
 * @param timeZone IANA name; UTC where null
 * @throws SandlarderError OUT_OF_DOMAIN for a zone that the runtime does not know
 */
export const bedSections = (figures: SeasonFigures, timeZone: string | null): CertificateSection[] => [
  filledSection(figures, timeZone),
  outSection(figures),
  lossSection(figures, timeZone),
  warmthSection(figures.warmth, figures.kept_days),
  alarmSection(figures.alarms, timeZone),
];

function filledSection(
  { season, totals, filled, kept_days, emptied, sprouts }: SeasonFigures,
  timeZone: string | null,
): CertificateSection {
  const masses = totals.in.map(({ mass_kg }) => mass_kg);
  const mass_kg =
    masses.length > 0 && masses.every((mass) => mass !== null)
      ? masses.reduce((sum, mass) => sum + mass, 0)
      : null;
  return section('Filled and kept', {
    rows: [
      ['Filled on', dayInWords(season.filledAt, timeZone)],
      ['Roots', filled === 0 ? UNKNOWN : String(filled)],
      ['Mass', massInWords(mass_kg)],
      ['Cultivar', season.cultivar ?? UNKNOWN],
      ['Field', season.field ?? UNKNOWN],
      ['Lot', season.lot ?? UNKNOWN],
      ['Kept', `${daysInWords(kept_days)}${keptWords(emptied, filled)}`],
      ['Sprouts', sproutsInWords(sprouts)],
    ],
  });
}

function keptWords(emptied: boolean, filled: number): string {
  if (emptied) return ', until it was empty';
  return filled === 0 ? ' since it was filled' : ', and not empty yet';
}

function outSection({ totals, filled, left }: SeasonFigures): CertificateSection {
  const shareOf = (roots: number): string => (filled === 0 ? UNKNOWN : percentOf(roots / filled));
  const rows = totals.out.map(({ reason, roots, mass_kg }) => [
    STOCK_WORDS[reason],
    String(roots),
    shareOf(roots),
    massInWords(mass_kg),
  ]);
  return section('What came out', {
    tables: [
      {
        caption: 'By reason, as written down; a share is of all roots that went in',
        columns: [
          { head: 'Reason', isNumber: false, share: 3 },
          { head: 'Roots', isNumber: true, share: 2 },
          { head: 'Share', isNumber: true, share: 2 },
          { head: 'Mass', isNumber: true, share: 2 },
        ],
        rows: [...rows, ['left in the bed', filled === 0 ? UNKNOWN : String(left), shareOf(left), UNKNOWN]],
      },
    ],
  });
}

const LOSS_NOTES = [
  'Shares are of the roots that were looked at; in brackets the 95 % interval. Rot passes from root to root, so that the truth lies outside more often than one time in twenty.',
  'A root with two causes counts under both in a look; over the season it is shared between them.',
];

function lossSection(
  { causes, survival, intervals }: SeasonFigures,
  timeZone: string | null,
): CertificateSection {
  if (survival === null)
    return section('What was lost', {
      rows: [['Not lost', survivalInWords(null)]],
    });
  return section('What was lost', {
    rows: [
      ['Not lost by the last look', survivalInWords(survival)],
      ...causes.map((loss) => [`Lost to ${CAUSE_WORDS[loss.cause]}`, intervalInWords(loss)] as const),
    ],
    tables: [
      {
        caption: 'From look to look',
        columns: [
          { head: 'Look on', isNumber: false, share: 2 },
          { head: 'Looked at', isNumber: true, share: 1 },
          { head: 'Of', isNumber: true, share: 1 },
          { head: 'Found', isNumber: false, share: 5 },
        ],
        rows: intervals.map((interval) => lookRow(interval, timeZone)),
      },
    ],
    notes: [...LOSS_NOTES, ...(causes.some(({ share }) => share > 0) ? [FOOD_CAUTION] : [])],
  });
}

const lookRow = ({ to, looked, present, causes }: LossInterval, timeZone: string | null): string[] => [
  dayInWords(to, timeZone),
  String(looked),
  present === null ? UNKNOWN : String(present),
  causes.map((loss) => `${CAUSE_WORDS[loss.cause]} ${intervalInWords(loss)}`).join('; '),
];

function warmthSection(warmth: WarmthFigures | null, kept_days: number): CertificateSection {
  if (warmth === null) return section('Warmth', { rows: [['Daily means', `${UNKNOWN}: no probe told`]] });
  const { mean_C, coldest_C, warmest_C, measured, quickRot } = warmth;
  return section('Warmth', {
    rows: [
      ['Mean', degrees(mean_C)],
      ['Coldest and warmest day', `${degrees(coldest_C)} and ${degrees(warmest_C)}`],
      ['Days of 20 to 29 °C, when nearly every rot is quick', `${quickRot} of ${measured}`],
      ['Days measured', `${measured} of ${Math.max(measured, Math.ceil(kept_days))}`],
    ],
  });
}

function alarmSection(alarms: readonly ReportedAlarm[], timeZone: string | null): CertificateSection {
  if (alarms.length === 0) return section('Alarms', { rows: [['Alarms', 'none']] });
  return section('Alarms', {
    tables: [
      {
        caption: 'Alarms and what the look after them found',
        columns: [
          { head: 'Raised on', isNumber: false, share: 2 },
          { head: 'About', isNumber: false, share: 2 },
          { head: 'Over on', isNumber: false, share: 2 },
          { head: 'Found', isNumber: false, share: 3 },
        ],
        rows: alarms.map(({ raisedAt, kind, clearedAt, foundOut }) => [
          dayInWords(raisedAt, timeZone),
          ALARM_WORDS[kind],
          clearedAt === null ? 'not yet' : dayInWords(clearedAt, timeZone),
          foundOut === undefined ? UNKNOWN : VERDICT_WORDS[foundOut.verdict],
        ]),
      },
    ],
  });
}
