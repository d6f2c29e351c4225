/** `sandlarder season BED [BED...]`: the report of a season, in lines, as a page, or as PDF. */
import { SandlarderError } from '../../core/errors.js';
import { parseTime } from '../../core/model/time.js';
import { writeFile } from '../../files.js';
import type { SeasonAnswer } from '../../http/index.js';
import { onOutput, type Say } from '../say.js';
import { ServiceClient, type ServiceFlags } from '../service-client.js';

export interface SeasonFlags extends ServiceFlags {
  readonly to?: string;
  readonly html?: string;
  readonly pdf?: string;
  readonly json?: boolean;
}

/** @throws SandlarderError WRONG_USAGE, and what the service refuses with */
export async function season(
  beds: readonly string[],
  flags: SeasonFlags,
  say: Say = onOutput,
): Promise<void> {
  const { to, html, pdf, json = false } = flags;
  if (to !== undefined && parseTime(to) === undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--to: expected an RFC 3339 time such as 2026-11-01T06:00:00Z, got ${JSON.stringify(to)}`,
    );
  const client = new ServiceClient(flags);
  const query = (values: Record<string, string>): string => {
    const text = String(new URLSearchParams({ ...values, ...(to !== undefined && { to }) }));
    return text === '' ? '' : `?${text}`;
  };
  const [only] = beds;
  const address = (ending: string): string =>
    beds.length === 1 && only !== undefined
      ? `/api/beds/${encodeURIComponent(only)}/season${ending}${query({})}`
      : `/api/seasons${ending}${query({ beds: beds.join(',') })}`;
  const found = await client.get<SeasonAnswer>(address(''));
  if (json) say(JSON.stringify(found));
  else for (const line of seasonInLines(found)) say(line);
  for (const [file, ending] of [
    [html, '.html'],
    [pdf, '.pdf'],
  ] as const)
    if (file !== undefined) {
      writeFile(file, await client.file(address(ending)), { flag: `--${ending.slice(1)}` });
      if (!json) say(`Written: ${file}`);
    }
}

const percent = (share: number): string => `${Number((100 * share).toFixed(1))} %`;
const day = (time: string): string => time.slice(0, 10);

export const seasonInLines = ({ title, to, beds }: SeasonAnswer): string[] => [
  `${title}, up to ${day(to)}`,
  ...beds.flatMap(bedLines),
];

type BedSeason = SeasonAnswer['beds'][number];

function bedLines(bed: BedSeason): string[] {
  const { name, filledAt, kept_days, emptied } = bed;
  return [
    `${name} (${bed.bed}): filled on ${day(filledAt)}, kept ${Math.round(kept_days)} days${emptied ? ', until it was empty' : ''}`,
    `  roots: ${rootsWords(bed)}`,
    `  not lost by the last look: ${lostWords(bed)}`,
    bed.warmth
      ? `  warmth: ${bed.warmth.mean_C.toFixed(1)} °C, ${bed.warmth.coldest_C.toFixed(1)} to ${bed.warmth.warmest_C.toFixed(1)} °C by day, ${bed.warmth.measured} days measured`
      : '  warmth: not known',
    `  sprouts: ${sproutWords(bed)}`,
    `  alarms: ${alarmWords(bed)}`,
  ];
}

function rootsWords({ bed, filled, filledBy, left, out }: BedSeason): string {
  const how = `"sandlarder fill ${bed}" or "sandlarder stock ${bed} in" writes down what goes in`;
  if (filled === null && left === null) return `not known, none were written down; ${how}`;
  if (filledBy === 'description')
    return `${filled} in, as the bed is described; what came out and is left is not known; ${how}`;
  const went = out.map(({ reason, roots }) => `${reason} ${roots}`).join(', ');
  return `${filled} in; ${went === '' ? 'none out' : `out: ${went}`}; ${left} left`;
}

function sproutWords({ sprouts, opened }: BedSeason): string {
  if (sprouts === null) return opened === 0 ? 'not known, nobody looked into the bed' : 'none found';
  return `found after ${Math.round(sprouts.foundAfter)} days; they came after day ${Math.round(sprouts.notAfter)}`;
}

function alarmWords({ alarms }: BedSeason): string {
  const counted = (verdict: string): number => alarms.filter(({ found }) => found === verdict).length;
  return `${alarms.length}, of which right ${counted('right')}; nobody looked after ${counted('unseen')}`;
}

function lostWords({ notLost, losses }: BedSeason): string {
  if (notLost === null) return 'not known, no roots were counted';
  const band =
    notLost.low === null || notLost.high === null
      ? ''
      : ` (${percent(notLost.low)} to ${percent(notLost.high)})`;
  const causes = losses.map(
    ({ cause, share, low, high }) => `${cause} ${percent(share)} (${percent(low)} to ${percent(high)})`,
  );
  return `${percent(notLost.share)}${band}${causes.length === 0 ? '' : `; lost to ${causes.join(', ')}`}`;
}
