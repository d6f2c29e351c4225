/**
 * What to do after an inspection, by rule from what was written down: plain sentences, each with the honest tag of
 * its source. Nothing here replaces the look of somebody who knows the trade.
 */
import { DIGGING_CAUTION, FOOD_CAUTION } from '../alarms/cautions.js';
import { type InspectionDetail, rootsOut } from '../model/inspection-detail.js';

export interface Advice {
  /** What it is about. */
  readonly about:
    | 'unpack'
    | 'digging'
    | 'rot'
    | 'weevils'
    | 'mould'
    | 'damp'
    | 'sprouts'
    | 'rodents'
    | 'termites'
    | 'not-thrown';
  readonly text: string;
  /** Published, or `judgement`, `common practice, no source`. */
  readonly source: string;
}

const PRACTICE = 'common practice, no source';
const JUDGEMENT = 'judgement';

interface Rule {
  readonly when: (detail: InspectionDetail) => boolean;
  readonly says: readonly Advice[];
}

const isAbove = (value: number | undefined): boolean => (value ?? 0) > 0;

/** Why a bed cannot wait. */
const mustUnpack = ({ warmByHand, smell }: InspectionDetail): boolean =>
  warmByHand === 'warm' || warmByHand === 'hot' || smell === 'rotten';

/** From what cannot wait to what can. */
const RULES: readonly Rule[] = [
  {
    when: mustUnpack,
    says: [
      {
        about: 'unpack',
        text: 'Unpack the bed at once: warm sand or a bad smell means that roots are rotting. Sort every root before any goes back.',
        source: PRACTICE,
      },
      { about: 'digging', text: DIGGING_CAUTION, source: PRACTICE },
    ],
  },
  {
    when: ({ rotten }) => isAbove(rotten),
    says: [
      {
        about: 'rot',
        text: FOOD_CAUTION,
        source:
          'Merck Veterinary Manual, rev. 2022; Thibodeau et al. 2004, J. Agric. Food Chem. 52, 380-384; that cooking does not help is weakly sourced',
      },
      {
        about: 'rot',
        text: 'Look at every root around a rotten one, and take out the sand that it wetted.',
        source: JUDGEMENT,
      },
    ],
  },
  {
    when: ({ weevil }) => isAbove(weevil),
    says: [
      {
        about: 'weevils',
        text: 'Take the whole bed out and look at every root: one with weevils means that others have eggs or grubs inside, which no probe and no repacking reaches.',
        source: JUDGEMENT,
      },
      {
        about: 'weevils',
        text: 'Bury roots with weevils deep or burn them, the whole root: do not eat them, plant them, or feed them to animals.',
        source: 'unfit for human or animal consumption: Musana et al., pest risk atlas 4.2.2',
      },
      { about: 'weevils', text: 'Call the extension officer.', source: JUDGEMENT },
    ],
  },
  {
    when: ({ smell }) => smell === 'musty',
    says: [
      {
        about: 'mould',
        text: 'A musty smell is mould: look for it root by root from where it smells most.',
        source: JUDGEMENT,
      },
    ],
  },
  {
    when: ({ sandFeels }) => sandFeels === 'wet',
    says: [
      {
        about: 'damp',
        text: 'Take the roots out and pack them in other sand that is dry and cool: wet sand sprouts and rots roots. Find where the water comes in.',
        source: JUDGEMENT,
      },
    ],
  },
  {
    when: ({ sandFeels }) => sandFeels === 'damp',
    says: [
      {
        about: 'damp',
        text: 'Weigh a sample of the sand, dry it, and weigh it again: above 1 % of water roots should not stay in it.',
        source: 'judgement: no published limit',
      },
    ],
  },
  {
    when: ({ sproutsLong }) => isAbove(sproutsLong),
    says: [
      {
        about: 'sprouts',
        text: 'Do not put roots with long sprouts back: eat or sell them now, or plant them.',
        source: PRACTICE,
      },
    ],
  },
  {
    when: ({ sproutsShort }) => isAbove(sproutsShort),
    says: [
      {
        about: 'sprouts',
        text: 'Rub short sprouts off, up to 15 mm. A firm, clean root can go back into dry sand; eat it before the others.',
        source:
          'practice seen: Abidin et al. 2016 (sprouts removed, roots put back); 15 mm is common practice',
      },
    ],
  },
  {
    when: ({ rodent }) => isAbove(rodent),
    says: [
      {
        about: 'rodents',
        text: 'Find and close the way in of the rats or mice. Throw away what they gnawed: it rots first, and they soil it.',
        source: JUDGEMENT,
      },
    ],
  },
  {
    when: ({ termite }) => isAbove(termite),
    says: [
      {
        about: 'termites',
        text: 'Follow the runs of the termites to where they come in, and take wood and straw away from the bed.',
        source: JUDGEMENT,
      },
    ],
  },
];

/** Advice after an inspection, the most urgent first; none where nothing asks for any. */
export const adviceFor = (detail: InspectionDetail): readonly Advice[] => [
  ...RULES.filter(({ when }) => when(detail)).flatMap(({ says }) => says),
  ...notThrown(detail),
];

/** Unfit roots that were counted and have not been written down as thrown; they still count as stock. */
function notThrown(detail: InspectionDetail): Advice[] {
  const unfit = Math.max(detail.rotten ?? 0, detail.weevil ?? 0);
  const missing = unfit - rootsOut(detail, ['thrown']);
  if (!(missing > 0)) return [];
  return [
    {
      about: 'not-thrown',
      text: `Write down as thrown what was thrown: at least ${unfit} ${unfit === 1 ? 'root was' : 'roots were'} unfit; ${missing} of these still ${missing === 1 ? 'counts' : 'count'} as stock.`,
      source: 'computed from the counts',
    },
  ];
}
