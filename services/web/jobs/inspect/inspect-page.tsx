/** A look into a bed: `?alarm=` is what led to it, `?record=` one that was not taken and is mended. */

import { useEffect, useState } from 'preact/hooks';
import { useLocation, useRoute } from 'preact-iso';
import { PlaceDrawn } from '../../alarm/place-drawn.js';
import { type Waiting, waitingNow } from '../../api/outbox.js';
import { useSeen } from '../../api/seen.js';
import type { AlarmStory } from '../../api/types/alarm-story.js';
import type { Bed } from '../../api/types/bed.js';
import type { LookBody } from '../../api/types/inspection.js';
import { AlarmText } from '../../parts/alarm-text.js';
import { isNotThere, NotThere } from '../../parts/not-there.js';
import { Notice } from '../../parts/notice.js';
import { personNow } from '../../parts/person.js';
import { useSite } from '../../parts/site.js';
import { timeNow } from '../../parts/time-field.js';
import { Title } from '../../parts/title.js';
import { say } from '../../words/say.js';
import { zonedText } from '../../words/zoned.js';
import '../../alarm/alarm.css';
import './look.css';
import { LookForm } from './look-form.js';
import { keptLook } from './look-kept.js';
import { lookAgain, newLook, type TypedLook } from './look-typed.js';
import type { Photo } from './photos.js';
import type { Sent } from './send-look.js';
import { SentLook } from './sent-look.js';

interface Beginning {
  readonly look: TypedLook;
  readonly photos: readonly Photo[];
  readonly refusal?: string | undefined;
  readonly record?: string | undefined;
}

export default function InspectPage() {
  const id = useRoute().params['bed'] ?? '';
  const { query } = useLocation();
  const { answer: seen, asking, refusal } = useSeen<Bed>(`/api/beds/${id}`);
  const { names, settled } = useSite(seen?.site);
  const [sent, setSent] = useState<Sent>();
  const bed = seen ?? { id, name: id };
  const alarm = query['alarm'] ?? null;
  useEffect(fetchAhead, []);
  return (
    <>
      <Title>{say('inspect.title', { bed: bed.name })}</Title>
      {isNotThere(refusal) ? (
        <NotThere kind="bed" id={id} />
      ) : sent ? (
        <SentLook sent={sent} bed={bed} alarm={alarm} onAgain={() => setSent(undefined)} />
      ) : (
        <>
          {alarm ? <About alarm={alarm} bed={seen} /> : null}
          {settled || (!seen && !asking) ? (
            <Begun
              key={`${id} ${query['record'] ?? ''}`}
              {...{ bed, names }}
              record={query['record']}
              onSent={setSent}
            />
          ) : (
            <p role="status">{say('parts.asking')}</p>
          )}
        </>
      )}
    </>
  );
}

/** Whoever looks into a bed may have no network by then: what waits is shown all the same. */
function fetchAhead(): void {
  import('../waiting/waiting-page.js').catch(() => undefined);
}

function About({ alarm, bed }: { alarm: string; bed: Bed | undefined }) {
  const { answer: story } = useSeen<AlarmStory>(`/api/alarms/${encodeURIComponent(alarm)}`);
  if (!story) return null;
  return (
    <div class="card">
      <h2>{say('inspect.about')}</h2>
      <p>
        <AlarmText alarm={story} />
      </p>
      {story.where ? (
        <p>
          {say('inspect.dig', { where: '' })} <span lang={story.where.language}>{story.where.text}</span>
        </p>
      ) : null}
      {bed && story.place ? <PlaceDrawn bed={bed} place={story.place} /> : null}
    </div>
  );
}

interface BegunParts {
  readonly bed: { readonly id: string; readonly name: string };
  readonly names: readonly string[];
  readonly record: string | undefined;
  readonly onSent: (sent: Sent) => void;
}

/** The form is there once it is known what it begins with, by the site's clock. */
function Begun({ bed, names, record, onSent }: BegunParts) {
  const [beginning, setBeginning] = useState<Beginning>();
  useEffect(() => {
    const fresh = { look: keptLook(bed.id) ?? newLook(personNow(), timeNow()), photos: [] };
    if (record === undefined) setBeginning(fresh);
    else waitingNow().then((all) => setBeginning(beginningOf(all, record) ?? fresh));
  }, []);
  if (!beginning) return null;
  const { look, photos, refusal } = beginning;
  return (
    <>
      {record !== undefined && beginning.record === undefined ? (
        <Notice kind="plain">{say('inspect.recordGone')}</Notice>
      ) : null}
      {refusal === undefined ? null : (
        <Notice kind="refusal">
          <p>{say('inspect.mending', { reason: refusal })}</p>
        </Notice>
      )}
      <LookForm {...{ bed, names, onSent }} first={look} firstPhotos={photos} record={beginning.record} />
    </>
  );
}

function beginningOf(all: readonly Waiting[], id: string): Beginning | undefined {
  const record = all.find((one) => one.id === id);
  if (!record) return undefined;
  const body = record.body as LookBody;
  const photos = all.flatMap(({ after, blob, path }) =>
    after === id && blob ? [{ name: path.split('/').at(-1) ?? '', blob }] : [],
  );
  const look = lookAgain(body, zonedText(Date.parse(body.at)));
  return { look, photos, refusal: record.refusal, record: id };
}
