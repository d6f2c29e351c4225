/** Recorded readings of a site through the watch: the alarms that it would have raised. */
import { alarmId } from '../../core/alarms/alarm-id.js';
import { alarmDocument } from '../../core/alarms/document.js';
import { stateOf } from '../../core/alarms/life-cycle.js';
import { alarmText } from '../../core/alarms/text.js';
import { SandlarderError } from '../../core/errors.js';
import type { Alarm } from '../../core/model/alarm.js';
import { checkSiteFile } from '../../core/model/site-file.js';
import { formatTime } from '../../core/model/time.js';
import { toEpisodes } from '../../core/watch/episodes.js';
import type { Sample } from '../../core/watch/watch.js';
import { Directory, type KnownBed } from '../../joining/directory.js';
import { readJsonFile } from '../../load.js';
import { readRecorded } from './recorded-file.js';
import { type Recorded, recordedHours } from './recorded-hours.js';
import { WATCH } from './watch-under-test.js';
import { watchHours } from './watched-season.js';

export interface RecordedOptions {
  readonly file: string;
  readonly siteFile: string;
  /** Only this bed. */
  readonly bed: string | undefined;
  readonly json: boolean;
}

interface Replay {
  readonly alarms: readonly Alarm[];
  readonly hours: number;
  readonly cpu_ms: number;
}

/** @throws SandlarderError BAD_SITE_FILE, WRONG_USAGE, LIMIT_EXCEEDED */
export async function evaluateRecorded(options: RecordedOptions, say: (line: string) => void): Promise<void> {
  const { file, siteFile, bed, json } = options;
  const directory = directoryOf(siteFile);
  const beds = bedsOf(directory, bed);
  const { recorded, readings } = await collect(file);
  const unknown = [...recorded.keys()].filter((probe) => !isKnown(directory, probe)).sort();
  const replays = beds.map((known) => replay(known, recorded));
  const alarms = replays
    .flatMap((one) => one.alarms)
    .sort((one, other) => one.raisedAt - other.raisedAt || (one.id < other.id ? -1 : 1));
  const hours = replays.reduce((sum, one) => sum + one.hours, 0);
  const cpu_ms = replays.reduce((sum, one) => sum + one.cpu_ms, 0);
  if (json) {
    for (const alarm of alarms) say(JSON.stringify(alarmDocument(alarm)));
    say(
      JSON.stringify({
        totals: { readings, unknown, beds: beds.length, hours, alarms: alarms.length, cpu_ms },
      }),
    );
    return;
  }
  for (const { raisedAt, clearedAt, text } of alarms)
    say(`${formatTime(raisedAt)}  ${text}${clearedAt === null ? '' : ` (over ${formatTime(clearedAt)})`}`);
  say(
    `${counted(alarms.length, 'alarm')} from ${counted(readings, 'reading')} in ${counted(hours, 'bed-hour')}.`,
  );
  if (!beds.some(({ shade }) => shade.some(({ probe }) => recorded.has(probe.id))))
    say('No probe in the shade among them: beds were judged from their own probes, more cautiously.');
  if (unknown.length > 0) say(`Probes that ${siteFile} does not name: ${unknown.join(', ')}.`);
}

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

function directoryOf(siteFile: string): Directory {
  let key = 0;
  const nextKey = (): number => {
    key += 1;
    return key;
  };
  return new Directory([checkSiteFile(siteFile, readJsonFile(siteFile))], nextKey);
}

const isKnown = ({ beds }: Directory, probe: string): boolean =>
  [...beds.values()].some((known) => [...known.probes, ...known.shade].some((one) => one.probe.id === probe));

function bedsOf({ beds }: Directory, wanted: string | undefined): KnownBed[] {
  if (wanted === undefined) return [...beds.values()];
  const known = beds.get(wanted);
  if (known) return [known];
  throw new SandlarderError(
    'WRONG_USAGE',
    `--bed: expected one of ${[...beds.keys()].join(', ')}, got ${JSON.stringify(wanted)}`,
  );
}

/** In order of time; of two readings of one probe and time the first stands, as in the service. */
async function collect(file: string): Promise<{ recorded: Recorded; readings: number }> {
  const byProbe = new Map<string, Map<number, Sample>>();
  let readings = 0;
  for await (const { probe, ...sample } of readRecorded(file)) {
    readings += 1;
    const own = byProbe.get(probe) ?? new Map<number, Sample>();
    byProbe.set(probe, own);
    own.set(sample.at, { ...sample, ...own.get(sample.at) });
  }
  const inOrder = (samples: ReadonlyMap<number, Sample>): Sample[] =>
    [...samples.values()].sort((one, other) => one.at - other.at);
  return { recorded: new Map([...byProbe].map(([probe, own]) => [probe, inOrder(own)])), readings };
}

function replay(known: KnownBed, recorded: Recorded): Replay {
  const hours = recordedHours(known, recorded);
  const { changes, cpu_ms } = watchHours(known.watched, hours, WATCH);
  const alarms = toEpisodes(known.bed.id, [], changes).map(
    (episode): Alarm => ({
      ...{ ...episode, id: alarmId(known.site.id, episode), site: known.site.id },
      ...{ state: stateOf(episode.clearedAt, null), acknowledgement: null },
      text: alarmText(episode, known.bed),
    }),
  );
  return { alarms, hours: hours.length, cpu_ms };
}
