/** What a buried probe should show, and whether it does, for whoever stands at the bed. */
import { type DepthJudgement, type Lies, liesInWords } from './buried-depth.js';
import type { ExpectedSwing } from './filling.js';

const percent = (share: number): string => {
  const value = 100 * share;
  return value >= 1 ? String(Math.round(value)) : value.toFixed(1);
};
const hours = (value: number): string => String(Math.round(value));

/** Share of the swing outside below which a usual day, of 10 °C, shows less than the steps in which probes tell. */
const UNSEEN_SHARE = 0.01;

/** `30 cm deep it should show 1 % (0.4 to 3 %) of the swing outside, warmest 17 to 23 h later`. */
export function expectedInWords({ depth_cm, share, lag_h }: ExpectedSwing): string {
  const range = `${percent(share.likely)} % (${percent(share.low)} to ${percent(share.high)} %)`;
  const said = `${depth_cm} cm deep it should show ${range} of the swing between day and night outside, and be warmest ${hours(lag_h.low)} to ${hours(lag_h.high)} h after the air`;
  return share.likely < UNSEEN_SHARE
    ? `${said}; that is so little that only a probe that lies much shallower will show it`
    : said;
}

/** One sentence, which begins with the probe. @param isOver whether the hours that it is judged by are over */
export function judgedInWords(
  probe: string,
  { verdict, lies, because }: DepthJudgement,
  isOver: boolean,
): string {
  const seems = lies ? `, ${about(lies)}` : '';
  switch (verdict) {
    case 'as planned':
      return `${probe} lies as deep as said${seems}: ${because}`;
    case 'shallower':
      return `${probe} lies shallower than said${seems}: look whether sand is missing over it, or it was pulled up: ${because}`;
    case 'deeper':
      return `${probe} lies deeper than said, or hears nothing of the day${seems}: measure how deep it is when the bed is opened next: ${because}`;
    case 'cannot tell':
      return `${probe} cannot be told${isOver ? '' : ' yet'}: ${because}`;
  }
}

const about = (lies: Lies): string =>
  lies.likely === null || lies.high === null
    ? liesInWords(lies)
    : `about ${Math.round(lies.likely)} cm by the day's swing (${liesInWords(lies)})`;
