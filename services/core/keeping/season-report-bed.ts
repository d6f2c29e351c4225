/** The report of one bed: its sections, with all text finished and none marked up. */
import { FOOD_CAUTION } from '../alarms/cautions.js';
import { type CertificateSection, section } from '../calibration/certificate-document.js';
import { dayInWords } from '../calibration/certificate-words.js';
import type { AlarmKind } from '../model/alarm.js';
import type { CauseLoss, LossInterval } from './loss.js';
import type { ReportedAlarm, SeasonFigures, WarmthFigures } from './season-report-figures.js';
import {
  ALARM_WORDS,
  CAUSE_WORDS,
  daysInWords,
  degrees,
  intervalInWords,
  massInWords,
  NOT_KEPT,
  percentOf,
  rootsInWords,
  STOCK_WORDS,
  sproutsInWords,
  survivalInWords,
  UNKNOWN,
  VERDICT_WORDS,
} from './season-report-words.js';

/** Rows at the most of what a season may have many of: the last looks, the most urgent alarms. */
export interface Shown {
  readonly looks: number;
  readonly alarms: number;
}

/** From the most to the least, for whoever wants one page of paper. */
export const SHOWN: readonly Shown[] = [
  { looks: 12, alarms: 12 },
  { looks: 8, alarms: 6 },
  { looks: 5, alarms: 4 },
  { looks: 3, alarms: 3 },
  { looks: 2, alarms: 2 },
  { looks: 1, alarms: 1 },
];

const theMostUrgent = (shown: number, of: number): string =>
  of > shown ? `, the ${shown} most urgent of ${of}` : '';

const theLast = (shown: number, of: number): string => (of > shown ? `, the last ${shown} of ${of}` : '');

/**
 * @param timeZone IANA name; UTC where null
 * @throws SandlarderError OUT_OF_DOMAIN for a zone that the runtime does not know
 */
export const bedSections = (
  figures: SeasonFigures,
  timeZone: string | null,
  shown: Shown,
): CertificateSection[] => [
  filledSection(figures, timeZone),
  outSection(figures),
  lossSection(figures, timeZone, shown.looks),
  warmthSection(figures.warmth, figures.kept_days),
  alarmSection(figures.alarms, timeZone, shown.alarms),
];

function filledSection(figures: SeasonFigures, timeZone: string | null): CertificateSection {
  const { season, filledMass_kg, kept_days } = figures;
  return section('Filled and kept', {
    rows: [
      ['Filled on', dayInWords(season.filledAt, timeZone)],
      ['Roots, and their mass', `${rootsInWords(figures)}, ${massInWords(filledMass_kg)}`],
      ['Cultivar', season.cultivar ?? UNKNOWN],
      ['Field, and lot', `${season.field ?? UNKNOWN}, ${season.lot ?? UNKNOWN}`],
      ['Kept', `${daysInWords(kept_days)}${keptWords(figures)}`],
      ['Sprouts', sproutsInWords(figures)],
    ],
  });
}

function keptWords({ emptied, left }: SeasonFigures): string {
  if (emptied) return ', until it was empty';
  return left === null ? ' since it was filled' : ', and not empty yet';
}

function outSection({ totals, filled, left }: SeasonFigures): CertificateSection {
  if (totals.in.length === 0 && totals.out.length === 0) return section('What came out', { rows: NOT_KEPT });
  const shareOf = (roots: number | null): string =>
    filled === null || roots === null ? UNKNOWN : percentOf(roots / filled);
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
        rows: [...rows, ['left in the bed', left === null ? UNKNOWN : String(left), shareOf(left), UNKNOWN]],
      },
    ],
  });
}

const LOSS_NOTES = [
  'Shares are of the roots that were looked at; in brackets the 95 % interval. Rot passes from root to root, so that the truth lies outside more often than one time in twenty.',
  'A root with two causes counts under both in a look; over the season it is shared between them. A look is taken to find what was lost since all roots were sorted last.',
];

function lossSection(
  { causes, survival, intervals }: SeasonFigures,
  timeZone: string | null,
  shown: number,
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
        caption: `From look to look${theLast(shown, intervals.length)}`,
        columns: [
          { head: 'Look on', isNumber: false, share: 2 },
          { head: 'Looked at', isNumber: false, share: 2 },
          { head: 'Found', isNumber: false, share: 6 },
        ],
        rows: intervals.slice(-shown).map((interval) => lookRow(interval, timeZone)),
      },
    ],
    notes: [...LOSS_NOTES, ...(causes.some(({ share }) => share > 0) ? [FOOD_CAUTION] : [])],
  });
}

const lookRow = (interval: LossInterval, timeZone: string | null): string[] => [
  dayInWords(interval.to, timeZone),
  interval.present === null ? String(interval.looked) : `${interval.looked} of ${interval.present}`,
  foundInWords(interval),
];

/** Beyond so many their intervals are left out, so that they fit a line; those of the season stand above. */
const WITH_INTERVALS = 2;

function foundInWords({ causes }: LossInterval): string {
  const found = causes.filter(({ count }) => count > 0);
  if (found.length === 0) return `nothing of ${causes.map(({ cause }) => CAUSE_WORDS[cause]).join(', ')}`;
  const inWords =
    found.length > WITH_INTERVALS ? ({ share }: CauseLoss) => percentOf(share) : intervalInWords;
  return found.map((loss) => `${CAUSE_WORDS[loss.cause]} ${inWords(loss)}`).join('; ');
}

function warmthSection(warmth: WarmthFigures | null, kept_days: number): CertificateSection {
  if (warmth === null) return section('Warmth', { rows: [['Daily means', `${UNKNOWN}: no probe told`]] });
  const { mean_C, coldest_C, warmest_C, measured, quickRot } = warmth;
  return section('Warmth', {
    rows: [
      ['Mean', `${degrees(mean_C)}, of ${measured} days out of ${Math.max(measured, Math.ceil(kept_days))}`],
      ['Coldest and warmest day', `${degrees(coldest_C)} and ${degrees(warmest_C)}`],
      ['Days of 20 to 29 °C, when nearly every rot is quick', `${quickRot} of ${measured}`],
    ],
  });
}

/** What may be lost roots comes before sums of warmth, and those before probes. */
const URGENCY: readonly AlarmKind[] = ['heating', 'wetting', 'damp', 'condensation', 'weevil', 'sprouting'];

/** In order of time; of one kind the last ones. */
function mostUrgent(alarms: readonly ReportedAlarm[], most: number): readonly ReportedAlarm[] {
  const rankOf = ({ kind }: ReportedAlarm): number => {
    const at = URGENCY.indexOf(kind);
    return at < 0 ? URGENCY.length : at;
  };
  const chosen = alarms
    .map((alarm, at) => ({ alarm, at }))
    .toSorted((one, other) => rankOf(one.alarm) - rankOf(other.alarm) || other.at - one.at)
    .slice(0, most);
  return chosen.toSorted((one, other) => one.at - other.at).map(({ alarm }) => alarm);
}

function alarmSection(
  alarms: readonly ReportedAlarm[],
  timeZone: string | null,
  shown: number,
): CertificateSection {
  if (alarms.length === 0) return section('Alarms', { rows: [['Alarms', 'none']] });
  const told = alarms.filter(({ kind }) => kind !== 'inspection-due');
  const due = alarms.length - told.length;
  const rows = due === 0 ? [] : [['Looks that fell due', String(due)] as const];
  if (told.length === 0) return section('Alarms', { rows: [...rows, ['Other alarms', 'none']] });
  return section('Alarms', {
    rows,
    tables: [
      {
        caption: `Alarms and what the look after them found${theMostUrgent(shown, told.length)}`,
        columns: [
          { head: 'Raised on', isNumber: false, share: 2 },
          { head: 'About', isNumber: false, share: 2 },
          { head: 'Over on', isNumber: false, share: 2 },
          { head: 'Found', isNumber: false, share: 3 },
        ],
        rows: mostUrgent(told, shown).map(({ raisedAt, kind, clearedAt, foundOut }) => [
          dayInWords(raisedAt, timeZone),
          ALARM_WORDS[kind],
          clearedAt === null ? 'not yet' : dayInWords(clearedAt, timeZone),
          foundOut === undefined ? UNKNOWN : VERDICT_WORDS[foundOut.verdict],
        ]),
      },
    ],
  });
}
