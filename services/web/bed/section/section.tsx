/** The bed cut open: where it is warm, now and at any time of its season. */
import { useRef, useState } from 'preact/hooks';
import { useSeen } from '../../api/seen.js';
import type { Alarm } from '../../api/types/alarm.js';
import type { Bed } from '../../api/types/bed.js';
import type { BedEvent } from '../../api/types/event.js';
import { say } from '../../words/say.js';
import { type Cursor, seasonOf, useLooked } from '../cursor.js';
import { inThisFilling, noSeasonSaid } from '../this-filling.js';
import { useCoverage } from './coverage.js';
import { CoveragePanel } from './coverage-panel.js';
import { cutsOf } from './cuts.js';
import { Drawings } from './drawings.js';
import { EventList } from './event-marks.js';
import './colours.css';
import './handle.css';
import { OpenThen, openAt } from './sources.js';
import type { ProbeThen } from './then.js';
import { TimeHandle } from './time-handle.js';
import { useThen } from './use-then.js';

/** Alarms and events that are looked through, the newest. */
const ALARMS = 300;
const EVENTS = 300;

export function Section({ bed: whole, cursor }: { bed: Bed; cursor: Cursor }) {
  const bed = inThisFilling(whole);
  const { at } = useLooked(cursor);
  const season = seasonOf(bed);
  const then = useThen(bed, at);
  const path = `/api/beds/${encodeURIComponent(bed.id)}`;
  const events = useSeen<readonly BedEvent[]>(`${path}/events?limit=${EVENTS}`, {
    live: ['alarms', 'beds', 'probes', 'site'],
    bed: bed.id,
  });
  const alarms = useSeen<readonly Alarm[]>(`/api/alarms?bed=${encodeURIComponent(bed.id)}&limit=${ALARMS}`, {
    live: ['alarms'],
    bed: bed.id,
  });
  const open = at === undefined ? bed.openAlarms : openAt(alarms.answer ?? [], at);
  const coverage = useCoverage(bed.id);
  const known = useRef<readonly ProbeThen[]>([]);
  if (then.probes !== undefined) known.current = then.probes;
  const probes = then.probes ?? blank(known.current);
  const [through, setThrough] = useState('');
  const cuts = cutsOf(bed, probes, open, through);
  return (
    <section class="card section" aria-labelledby="section">
      <h2 id="section">{say('bed.section')}</h2>
      {season ? (
        <TimeHandle cursor={cursor} season={season} events={events.answer ?? []} />
      ) : (
        <p>{noSeasonSaid(whole)}</p>
      )}
      <p role="status" class="handle-state">
        {stateOf(then.probes === undefined, then.failed, at)}
      </p>
      <Drawings bed={bed} probes={probes} alarms={open} coverage={coverage} cuts={cuts} onCut={setThrough} />
      <OpenThen alarms={open} isPast={at !== undefined} />
      {season ? <EventList events={events.answer ?? []} season={season} cursor={cursor} /> : null}
      <CoveragePanel shown={coverage} deep_cm={cuts.chosen.cut.depth} />
    </section>
  );
}

function stateOf(isAsking: boolean, failed: string | undefined, at: number | undefined): string {
  if (failed !== undefined) return say('bed.thenFailed', { why: failed });
  if (isAsking) return say('bed.askingThen');
  return say(at === undefined ? 'bed.showsNow' : 'bed.showsThen');
}

/** Probes at their places without values: those of another time are not shown for this one's. */
const blank = (probes: readonly ProbeThen[]): ProbeThen[] =>
  probes.map(({ id, x, y, depth }) => ({
    ...{ id, x, y, depth, latest: null },
    ...{ expected_C: null, band_C: null, excess_C: null, flagged: [] },
  }));
