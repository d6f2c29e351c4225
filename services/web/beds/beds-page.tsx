/** All beds: what needs a person first, then how each stands. */
import { type SeenAnswer, useSeen } from '../api/seen.js';
import type { Bed } from '../api/types/bed.js';
import type { NextLook } from '../api/types/look.js';
import type { Today } from '../api/types/today.js';
import { KeepHere } from '../device/keep-here.js';
import { Button, ButtonLink } from '../parts/button.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { language } from '../words/language.js';
import { say } from '../words/say.js';
import { ago, useZone } from '../words/times.js';
import { BedCard } from './bed-card.js';
import './beds.css';
import { useCameUp } from './came-up.js';
import { inOrder } from './jobs-of-today.js';
import { BEDS, LOOKS, todayIn } from './questions.js';
import { TodayList } from './today-list.js';

export default function BedsPage() {
  const today = useSeen<Today>(todayIn(language()), {
    live: ['alarms', 'beds', 'site', 'probes', 'health'],
  });
  const beds = useSeen<readonly Bed[]>(BEDS, {
    live: ['readings', 'alarms', 'beds', 'site', 'probes'],
  });
  const looks = useSeen<readonly NextLook[]>(LOOKS, { live: ['alarms', 'beds', 'site'] });
  const told = useCameUp(today);
  const [first] = beds.answer ?? [];
  if (first) useZone(first.timezone);
  const isUnseen = [today, beds].every(({ answer, away }) => answer === undefined && away);
  return (
    <>
      <Title>{say('beds.title')}</Title>
      <p role="status" class="came-up">
        {told}
      </p>
      {beds.answer?.length === 0 ? <Empty /> : null}
      {isUnseen ? (
        <Unseen
          onAgain={() => {
            today.again();
            beds.again();
          }}
        />
      ) : (
        <BothLists {...{ today, beds, looks: looks.answer ?? [] }} />
      )}
      <KeepHere />
    </>
  );
}

interface Lists {
  readonly today: SeenAnswer<Today>;
  readonly beds: SeenAnswer<readonly Bed[]>;
  readonly looks: readonly NextLook[];
}

/** What needs somebody, then every bed. */
function BothLists({ today, beds, looks }: Lists) {
  return (
    <>
      {beds.answer?.length === 0 && today.answer?.items.length === 0 ? null : (
        <section aria-labelledby="needs">
          <h2 id="needs">{say('beds.needs')}</h2>
          <Shown of={today}>
            {(answer) =>
              answer.items.length === 0 ? (
                <p>{nothingSaid(beds.answer, looks)}</p>
              ) : (
                <TodayList today={answer} />
              )
            }
          </Shown>
        </section>
      )}
      {beds.answer?.length === 0 ? null : (
        <section aria-labelledby="all-beds">
          <h2 id="all-beds">{say('beds.all')}</h2>
          <Shown of={beds}>
            {(answer) => (
              <ul class="beds">
                {inOrder(answer, today.answer?.items ?? [], language()).map((bed) => (
                  <BedCard key={bed.id} bed={bed} look={looks.find((look) => look.bed === bed.id)} />
                ))}
              </ul>
            )}
          </Shown>
        </section>
      )}
    </>
  );
}

/** Out of reach on a device that never was in reach. */
function Unseen({ onAgain }: { onAgain: () => void }) {
  return (
    <>
      <p>{say('beds.nothingSeen')}</p>
      <div class="buttons">
        <Button kind="quiet" onPress={onAgain}>
          {say('parts.tryAgain')}
        </Button>
      </div>
    </>
  );
}

function nothingSaid(beds: readonly Bed[] = [], looks: readonly NextLook[] = []): string {
  const next = looks.find(({ dueAt }) => dueAt !== null);
  const bed = beds.find(({ id }) => id === next?.bed);
  if (!next?.dueAt || !bed) return say('beds.nothing');
  return say('beds.nothingNextLook', { bed: bed.name, when: ago(next.dueAt) });
}

function Empty() {
  return (
    <section class="card" aria-labelledby="empty">
      <h2 id="empty">{say('beds.emptyTitle')}</h2>
      <p>{say('beds.empty')}</p>
      <div class="buttons">
        <ButtonLink href="/settings">{say('beds.addBed')}</ButtonLink>
        <ButtonLink href="/jobs/plan" kind="quiet">
          {say('beds.planBed')}
        </ButtonLink>
      </div>
    </section>
  );
}
