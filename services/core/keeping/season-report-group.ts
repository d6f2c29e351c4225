/** The report of several beds side by side: a line for each. What it shows is no trial: beds differ in more than one thing. */

import { lookTells } from '../alarms/labels.js';
import {
  type CertificateColumn,
  type CertificateSection,
  type CertificateTable,
  section,
} from '../calibration/certificate-document.js';
import { dayInWords } from '../calibration/certificate-words.js';
import type { Verdict } from '../model/alarm.js';
import { STOCK_OUT_REASONS } from '../model/stock.js';
import { LOSS_CAUSES } from './loss-look.js';
import type { SeasonFigures } from './season-report-figures.js';
import {
  CAUSE_WORDS,
  degrees,
  intervalInWords,
  NOT_KEPT,
  rootsInWords,
  STOCK_WORDS,
  survivalInWords,
  UNKNOWN,
} from './season-report-words.js';

/**
 * @param timeZone IANA name; UTC where null
 * @throws SandlarderError OUT_OF_DOMAIN for a zone that the runtime does not know
 */
export const groupSections = (
  beds: readonly SeasonFigures[],
  timeZone: string | null,
): CertificateSection[] => [
  section('Beds', { tables: [keptTable(beds, timeZone)] }),
  outSection(beds),
  section('What was lost', {
    tables: [lossTable(beds)],
    notes: [
      'In brackets the 95 % interval. Beds whose intervals overlap cannot be told apart by it.',
      'This is no trial: the beds differ in more than one thing, and nobody drew lots.',
    ],
  }),
  section('Alarms', { tables: [alarmTable(beds)] }),
];

const BED: CertificateColumn = { head: 'Bed', isNumber: false, share: 3 };
const numbers = (heads: readonly string[]): CertificateColumn[] =>
  heads.map((head) => ({ head, isNumber: true, share: 2 }));
const words = (heads: readonly string[]): CertificateColumn[] =>
  heads.map((head) => ({ head, isNumber: false, share: 2 }));

const keptTable = (beds: readonly SeasonFigures[], timeZone: string | null): CertificateTable => ({
  caption: 'Filled, kept, warmth and sprouts',
  columns: [
    BED,
    ...words(['Filled on', 'Cultivar', 'Roots']),
    ...numbers(['Days kept', 'Mean warmth', 'Days to sprouts']),
  ],
  rows: beds.map((bed) => [
    bed.season.name,
    dayInWords(bed.season.filledAt, timeZone),
    bed.season.cultivar ?? UNKNOWN,
    rootsInWords(bed),
    String(Math.round(bed.kept_days)),
    bed.warmth === null ? UNKNOWN : degrees(bed.warmth.mean_C),
    daysToSprouts(bed),
  ]),
});

function daysToSprouts({ sprouts, opened }: SeasonFigures): string {
  if (sprouts !== null) return String(Math.round(sprouts.foundAfter));
  return opened === 0 ? UNKNOWN : 'none found';
}

const outSection = (beds: readonly SeasonFigures[]): CertificateSection =>
  section(
    'What came out',
    beds.every(({ left }) => left === null) ? { rows: NOT_KEPT } : { tables: [outTable(beds)] },
  );

/** Reasons that occurred in any bed; a bed of which the ledger is kept and in which one did not has 0. */
function outTable(beds: readonly SeasonFigures[]): CertificateTable {
  const rootsFor = ({ totals }: SeasonFigures, reason: string): number =>
    totals.out.find((total) => total.reason === reason)?.roots ?? 0;
  const reasons = STOCK_OUT_REASONS.filter((reason) => beds.some((bed) => rootsFor(bed, reason) > 0));
  return {
    caption: 'Roots by reason, as written down',
    columns: [BED, ...numbers([...reasons.map((reason) => STOCK_WORDS[reason]), 'left in the bed'])],
    rows: beds.map((bed) => [
      bed.season.name,
      ...reasons.map((reason) => (bed.left === null ? UNKNOWN : String(rootsFor(bed, reason)))),
      bed.left === null ? UNKNOWN : String(bed.left),
    ]),
  };
}

function lossTable(beds: readonly SeasonFigures[]): CertificateTable {
  const causes = LOSS_CAUSES.filter((cause) =>
    beds.some((bed) => bed.causes.some((loss) => loss.cause === cause)),
  );
  return {
    caption: 'Share not lost by the last look, and share lost by cause',
    columns: [BED, ...words(['Not lost', ...causes.map((cause) => CAUSE_WORDS[cause])])],
    rows: beds.map(({ season, survival, causes: losses }) => [
      season.name,
      survivalInWords(survival),
      ...causes.map((cause) => {
        const loss = losses.find((each) => each.cause === cause);
        return loss === undefined ? UNKNOWN : intervalInWords(loss);
      }),
    ]),
  };
}

function alarmTable(beds: readonly SeasonFigures[]): CertificateTable {
  const counted = (bed: SeasonFigures, verdicts: readonly Verdict[]): string =>
    String(
      bed.alarms.filter(
        ({ kind, foundOut }) => lookTells(kind) && foundOut && verdicts.includes(foundOut.verdict),
      ).length,
    );
  return {
    caption: 'Alarms, and what the look after them found',
    columns: [BED, ...numbers(['Alarms', 'Right', 'Nothing found', 'Something else', 'Nobody looked'])],
    rows: beds.map((bed) => [
      bed.season.name,
      String(bed.alarms.length),
      counted(bed, ['right']),
      counted(bed, ['wrong']),
      counted(bed, ['other']),
      counted(bed, ['unseen']),
    ]),
  };
}
