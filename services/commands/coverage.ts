/** `sandlarder coverage SITE.json [BED...]`: what the probes of a site's beds would find, and where they are blind. */
import { placeInWords } from '../core/alarms/place-in-words.js';
import { SandlarderError } from '../core/errors.js';
import type { Bed, SiteDescription } from '../core/model/site.js';
import { checkSiteFile } from '../core/model/site-file.js';
import { thresholdsInForce } from '../core/model/threshold.js';
import {
  ASKED,
  answerOf,
  type BlindSpot,
  type CoverageAnswer,
  type CoverageTask,
  FOUND,
  shadeStands,
  standingIn,
} from '../core/watch/coverage/index.js';
import { readJsonFile } from '../load.js';
import { readNumber, readWhole } from './numbers.js';
import { onOutput, type Say } from './say.js';

export interface CoverageFlags {
  readonly power: string;
  readonly days: string;
  readonly next?: boolean;
  readonly json?: boolean;
}

/** @param now wall clock, ms: probes that were taken out by then find nothing */
export function coverage(
  file: string,
  ids: readonly string[],
  flags: CoverageFlags,
  say: Say = onOutput,
  now = Date.now(),
): void {
  const power_W = readNumber('--power', flags.power, ASKED.power_W.low, ASKED.power_W.high);
  const days = readWhole('--days', flags.days, ASKED.days.low, ASKED.days.high);
  const site = checkSiteFile(file, readJsonFile(file));
  const { json = false, next = false } = flags;
  for (const bed of bedsOf(site, ids)) {
    const task = taskOf(site, bed, { power_W, days, next }, now);
    const answer = answerOf(task);
    if (json) say(JSON.stringify(asJson(bed, task, answer)));
    else for (const line of inLines(bed, task, answer)) say(line);
  }
  if (!json) for (const line of LEGEND) say(line);
}

function bedsOf({ beds }: SiteDescription, ids: readonly string[]): readonly Bed[] {
  const known = beds.map(({ id }) => id).join(', ');
  return ids.length === 0
    ? beds
    : ids.map((id) => {
        const bed = beds.find((one) => one.id === id);
        if (!bed)
          throw new SandlarderError(
            'WRONG_USAGE',
            `bed: expected one of ${known}, got ${JSON.stringify(id)}`,
          );
        return bed;
      });
}

interface Asked {
  readonly power_W: number;
  readonly days: number;
  readonly next: boolean;
}

function taskOf({ site, probes }: SiteDescription, bed: Bed, asked: Asked, now: number): CoverageTask {
  const thresholds = thresholdsInForce(site.thresholds, bed.thresholds);
  const { power_W, days, next } = asked;
  return {
    bed,
    points: standingIn(bed.id, probes, now),
    question: {
      ...{ power_W, days, shade: shadeStands(probes, now) },
      rates: {
        unpack_per_bed_month: thresholds.heating_unpack_per_bed_month,
        check_per_bed_month: thresholds.heating_check_per_bed_month,
      },
    },
    next,
  };
}

/** An object for each bed; what is found place by place is for the page, and asked of the service. */
function asJson({ id }: Bed, { points, question }: CoverageTask, { coverage: found, next }: CoverageAnswer) {
  const { power_W, days, shade } = question;
  const { places: _, ...rest } = found;
  return {
    bed: id,
    power_W,
    days,
    probes: points.length,
    shade,
    ...rest,
    ...(next !== undefined && { next }),
  };
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;

const LEGEND = [
  '',
  `Found: told to be unpacked in time with a chance of ${percent(FOUND)} or more, by the watch's own arithmetic. No probe sees`,
  'sprouts, weevils, or a single rotting root away from it: the look by hand every two weeks stays.',
];

function inLines(bed: Bed, task: CoverageTask, { coverage: found, next }: CoverageAnswer): string[] {
  const { power_W, days, shade } = task.question;
  const probes = `${task.points.length} ${task.points.length === 1 ? 'probe' : 'probes'}`;
  return [
    `${bed.name} (${bed.id}), ${probes}, ${shade ? 'with' : 'without'} a probe in the shade:`,
    `  a source of ${power_W} W would be found within ${days} days in ${percent(found.share)} of the bed; ${percent(found.blindShare)} is blind`,
    ...found.blindSpots.map((spot) => spotLine(bed, spot)),
    ...nextLines(bed, next),
  ];
}

const placeOf = ({ steps }: Bed, { x, y, depth }: { x: number; y: number; depth: number }): string =>
  `${placeInWords({ x, y, depth, radius: 0 }, steps).lines[1]} (x ${Math.round(x)}, y ${Math.round(y)}, depth ${Math.round(depth)})`;

function spotLine(bed: Bed, spot: BlindSpot): string {
  const { foundAfter_days: after } = spot;
  const later = after === undefined ? 'not in three weeks' : `after ${after} days`;
  return `  blind: ${placeOf(bed, spot)}, ${Math.round(spot.radius)} cm around; ${percent(spot.share)} of the bed, found ${later}`;
}

function nextLines(bed: Bed, next: CoverageAnswer['next']): string[] {
  if (next === undefined) return [];
  if (next === null) return ['  one more probe would add nothing'];
  return [`  next probe: ${placeOf(bed, next)}: found in ${percent(next.share)} with it`];
}
