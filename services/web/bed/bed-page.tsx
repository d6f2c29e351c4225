import { useMemo } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import { useSeen } from '../api/seen.js';
import type { Bed } from '../api/types/bed.js';
import { Shown } from '../parts/shown.js';
import { Standing } from '../parts/standing.js';
import { Title } from '../parts/title.js';
import { When } from '../parts/when.js';
import { say } from '../words/say.js';
import './bed.css';
import { createCursor } from './cursor.js';
import { Facts } from './facts.js';
import { Section } from './section/section.js';
import { SeriesPart } from './series-part.js';
import { WhatToDo } from './what-to-do.js';

export default function BedPage() {
  const { params } = useRoute();
  const id = params['bed'] ?? '';
  return <OneBed key={id} id={id} />;
}

function OneBed({ id }: { id: string }) {
  const cursor = useMemo(createCursor, [id]);
  const seen = useSeen<Bed>(`/api/beds/${encodeURIComponent(id)}`, {
    live: ['readings', 'alarms', 'beds', 'site', 'probes'],
    bed: id,
  });
  return (
    <>
      <Title>{seen.answer?.name ?? id}</Title>
      <Shown of={seen} thing={{ kind: 'bed', id }}>
        {(bed) => (
          <>
            <p class="stands">
              <Standing stands={bed.stands} /> <Since bed={bed} />
            </p>
            <WhatToDo bed={bed} />
            <Section bed={bed} cursor={cursor} />
            <SeriesPart bed={bed} cursor={cursor} />
            <Facts bed={bed} />
          </>
        )}
      </Shown>
    </>
  );
}

/** Since when it stands so; by its oldest open alarm of that kind where the service does not say. */
function Since({ bed: { stands, standsSince, openAlarms } }: { bed: Bed }) {
  const raised = openAlarms.filter(({ action }) => action === stands).map(({ raisedAt }) => raisedAt);
  const since = standsSince ?? raised.sort()[0];
  if (since === undefined) return null;
  return (
    <span>
      {say('bed.sinceWhen')} <When at={since} />
    </span>
  );
}
