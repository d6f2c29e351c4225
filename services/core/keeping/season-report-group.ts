/** The report of several beds side by side: a line for each. What it shows is no trial: beds differ in more than one thing. */
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
  section('What came out', { tables: [outTable(beds)] }),
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
    ...words(['Filled on', 'Cultivar']),
    ...numbers(['Roots', 'Days kept', 'Mean warmth', 'Days to sprouts']),
  ],
  rows: beds.map(({ season, filled, kept_days, warmth, sprouts }) => [
    season.name,
    dayInWords(season.filledAt, timeZone),
    season.cultivar ?? UNKNOWN,
    filled === 0 ? UNKNOWN : String(filled),
    String(Math.round(kept_days)),
    warmth === null ? UNKNOWN : degrees(warmth.mean_C),
    sprouts === null ? 'none found' : String(Math.round(sprouts.foundAfter)),
  ]),
});

/** Reasons that occurred in any bed; a bed in which one did not has 0. */
function outTable(beds: readonly SeasonFigures[]): CertificateTable {
  const rootsFor = ({ totals }: SeasonFigures, reason: string): number =>
    totals.out.find((total) => total.reason === reason)?.roots ?? 0;
  const reasons = STOCK_OUT_REASONS.filter((reason) => beds.some((bed) => rootsFor(bed, reason) > 0));
  return {
    caption: 'Roots by reason, as written down',
    columns: [BED, ...numbers([...reasons.map((reason) => STOCK_WORDS[reason]), 'left in the bed'])],
    rows: beds.map((bed) => [
      bed.season.name,
      ...reasons.map((reason) => String(rootsFor(bed, reason))),
      bed.filled === 0 ? UNKNOWN : String(bed.left),
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
    String(bed.alarms.filter(({ foundOut }) => foundOut && verdicts.includes(foundOut.verdict)).length);
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
