/** What must be known beside the advice, whenever a bed is filled or looked into. */
import { DIGGING_CAUTION, FOOD_CAUTION, LIFTING_CAUTION, UNSEEN_CAUTION } from '../alarms/cautions.js';
import type { InspectionBody } from '../model/inspection.js';
import { PEST_CAUTION, SOUND_CAUTION } from './plan-cautions.js';

/** Judgement: what a book or a probe says stands behind what somebody sees who knows the trade and the law. */
const OFFICER_CAUTION =
  'Call the extension officer where weevils, a rot that spreads or a pest you do not know is found; local rules and licensed practice decide.';

/** For whoever fills a bed of that kind. */
export const fillingCautions = (kind: 'stepped-pit' | 'box'): string[] => [
  SOUND_CAUTION,
  LIFTING_CAUTION,
  ...(kind === 'box' ? [] : [DIGGING_CAUTION]),
  FOOD_CAUTION,
  PEST_CAUTION,
];

/** Those that the advice has said already are not said again. */
export function lookCautions(
  inspection: InspectionBody,
  kind: 'stepped-pit' | 'box',
  said: readonly string[],
): string[] {
  const { found, smell, rotten = 0, weevil = 0, rodent = 0, termite = 0, opened, repacked } = inspection;
  const isUnfit =
    found.includes('rot') ||
    found.includes('weevils') ||
    rotten + weevil > 0 ||
    (smell ?? 'fresh') !== 'fresh';
  const cautions = [
    ...(isUnfit ? [FOOD_CAUTION, OFFICER_CAUTION] : []),
    ...(opened && kind !== 'box' ? [DIGGING_CAUTION] : []),
    ...(repacked ? [LIFTING_CAUTION] : []),
    ...(rodent + termite > 0 ? [PEST_CAUTION] : []),
    UNSEEN_CAUTION,
  ];
  return cautions.filter((caution) => !said.includes(caution));
}
