/** How warm and moist a bed was: plots over one time axis, what happened along it, and the same in words. */
import type { ComponentChildren } from 'preact';
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { useSeen } from '../../api/seen.js';
import type { Bed } from '../../api/types/bed.js';
import type { EventAnswer } from '../../api/types/series.js';
import { say } from '../../words/say.js';
import { type Cursor, seasonOf } from '../cursor.js';
import { isFilledAnew, noSeasonSaid } from '../this-filling.js';
import { Controls } from './controls.js';
import { EventList } from './event-list.js';
import { EventStrip } from './event-strip.js';
import { followGestures } from './gestures.js';
import { Legend } from './legend.js';
import { SeriesModel, type SeriesSite, useSettled } from './model.js';
import { Origin } from './origin.js';
import { Plots } from './plots.js';
import { Progress } from './progress.js';
import { Reading } from './reading.js';
import './print.css';
import './series.css';
import { Summary } from './summary.js';
import { FlaggedList, ValuesTable } from './values-table.js';

interface SeriesParts {
  readonly bed: Bed;
  readonly cursor: Cursor;
}

export default function Series({ bed, cursor }: SeriesParts) {
  const whole = seasonOf(bed);
  const count = ever(bed).length;
  return (
    <section class="series" aria-labelledby="series">
      <h2 id="series">{say('series.title')}</h2>
      {count === 0 ? <p>{say('series.noProbes')}</p> : null}
      {count > 0 && !whole ? <p>{isFilledAnew(bed) ? noSeasonSaid(bed) : say('series.noReadings')}</p> : null}
      {count > 0 && whole ? <Season bed={bed} cursor={cursor} whole={whole} /> : null}
    </section>
  );
}

/** Events on one page of the service: the newest of a season. */
const EVENTS = 1000;

function Season({ bed, cursor, whole }: SeriesParts & { whole: SeriesSite['whole'] }) {
  const site = useMemo(() => siteOf(bed, whole), [bed, whole.from, whole.to]);
  const model = useModel(bed, site, cursor);
  const { answer: events = [] } = useSeen<readonly EventAnswer[]>(
    `/api/beds/${bed.id}/events?from=${new Date(whole.from).toISOString()}&limit=${EVENTS}`,
    { live: ['alarms', 'beds'], bed: bed.id },
  );
  const depths = useMemo(() => new Map(ever(bed).map(({ id, depth }) => [id, depth])), [bed]);
  return (
    <>
      <Summary model={model} />
      <Controls model={model} />
      <Key model={model} />
      <Progress model={model} />
      <Held model={model}>
        <EventStrip model={model} events={events} />
        <Plots model={model} whole={whole} />
      </Held>
      <Reading model={model} />
      <Legend model={model} depths={depths} />
      <Origin model={model} />
      <EventList model={model} events={events} />
      {events.length >= EVENTS ? <p class="soft">{say('series.eventsCut', { count: EVENTS })}</p> : null}
      <FlaggedList model={model} />
      <ValuesTable model={model} />
      <p>
        <a href={rowsAddress(bed, whole)} download={`${bed.id}.csv`}>
          {say('bed.download')}
        </a>
      </p>
    </>
  );
}

/** All of the season as a file, with the shade. */
const rowsAddress = ({ id }: Bed, { from }: SeriesSite['whole']): string =>
  `/api/export/readings.csv?beds=${encodeURIComponent(id)}&from=${new Date(from).toISOString()}&shade=true`;

/** What is drawn how. */
function Key({ model }: { model: SeriesModel }) {
  useSettled(model);
  const { front, others } = model.choice;
  return <p class="series-key soft">{say(others ? 'series.keyOthers' : 'series.key', { probe: front })}</p>;
}

/** What was measured by a probe that was taken out is of the season too. */
const ever = ({
  probes,
  formerProbes = [],
}: Bed): readonly { readonly id: string; readonly depth: number }[] => [...probes, ...formerProbes];

const siteOf = (bed: Bed, whole: SeriesSite['whole']): SeriesSite => ({
  ...{ bed: bed.id, whole, shade: bed.shade, probes: ever(bed).map(({ id }) => id) },
});

/** The warmest against a sound bed is in front first. */
function useModel(bed: Bed, site: SeriesSite, cursor: Cursor): SeriesModel {
  const [model] = useState(() => {
    const [warmest] = [...bed.probes].sort((one, other) => (other.excess_C ?? -99) - (one.excess_C ?? -99));
    const plots = ['temperature', 'excess', 'humidity'] as const;
    return new SeriesModel(site, { front: (warmest ?? ever(bed)[0])?.id ?? '', others: true, plots }, cursor);
  });
  useEffect(() => {
    if (model.site !== site) model.grow(site);
  }, [model, site]);
  useEffect(() => {
    model.want();
    return () => model.close();
  }, [model]);
  return model;
}

/** Holds the plots: fingers, wheel and keys on it move them. */
function Held({ model, children }: { model: SeriesModel; children: ComponentChildren }) {
  const place = useRef<HTMLElement>(null);
  useEffect(() => (place.current ? followGestures(place.current, model) : undefined), [model]);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: its keys move the plots [WCAG 2.1.1]
    <section ref={place} class="held" aria-label={say('series.held')} tabIndex={0}>
      {children}
    </section>
  );
}
