/** Whether a bed may be filled: its probes answer now, a hand answers on the same screen. */

import { useEffect, useState } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import { OnlyWhoMay } from '../../access/only-who-may.js';
import { newId } from '../../api/new-id.js';
import { useOutbox } from '../../api/outbox.js';
import { type SeenAnswer, useSeen } from '../../api/seen.js';
import { sendOrKeep } from '../../api/send-or-keep.js';
import type { ReadinessNow, ReadinessRecord } from '../../api/types/readiness.js';
import { ButtonLink } from '../../parts/button.js';
import { TextField } from '../../parts/field.js';
import { expectAll, Form, NotAsExpected } from '../../parts/form.js';
import { useKept } from '../../parts/kept.js';
import { Notice } from '../../parts/notice.js';
import { rememberPerson, usePerson } from '../../parts/person.js';
import { Shown } from '../../parts/shown.js';
import { Title } from '../../parts/title.js';
import { Told } from '../../parts/told.js';
import { say } from '../../words/say.js';
import { dayOf } from '../../words/times.js';
import { draftName } from '../drafts.js';
import { addressOf, jobNamed } from '../jobs.js';
import { EarlierLists } from './earlier-lists.js';
import { Override } from './override.js';
import { Points } from './points.js';
import { answersOf, isTouched, NOTHING, type TypedReady } from './typed-ready.js';
import '../verdict.css';
import './ready.css';

interface BedWithProbes {
  readonly name: string;
  readonly filled: string | null;
  readonly rootsLeft: number | null;
  readonly probes: readonly { readonly id: string }[];
}

export default function ReadyPage() {
  const id = useRoute().params['bed'] ?? '';
  return <ReadyOf key={id} id={id} />;
}

function ReadyOf({ id }: { id: string }) {
  const bed = useSeen<BedWithProbes>(`/api/beds/${id}`).answer;
  const now = useSeen<ReadinessNow>(`/api/beds/${id}/readiness`);
  const records = useSeen<readonly ReadinessRecord[]>(`/api/beds/${id}/readiness/records`);
  const again = (): void => {
    now.again();
    records.again();
  };
  // What waited here has been sent, or taken back.
  const waiting = useOutbox().length;
  useEffect(again, [waiting]);
  const name = bed?.name ?? id;
  return (
    <>
      <Title>{say('ready.title', { bed: name })}</Title>
      {bed?.filled && bed.rootsLeft !== 0 ? (
        <Notice kind="caution" title={say('fill.fullSince', { day: dayOf(bed.filled) })}>
          <p>{say('fill.fullToReady')}</p>
        </Notice>
      ) : null}
      <Shown of={now} thing={{ kind: 'bed', id }}>
        {(list) => (
          <>
            <Verdict list={list} bed={id} />
            <OnlyWhoMay action="write-down" bed={id}>
              <List {...{ id, name, list, again }} probes={(bed?.probes ?? []).map((probe) => probe.id)} />
              <Override key={list.record?.id} bed={id} record={list.record} onDone={again} />
            </OnlyWhoMay>
          </>
        )}
      </Shown>
      <EarlierLists of={records} />
    </>
  );
}

function Verdict({ list, bed }: { list: ReadinessNow; bed: string }) {
  const { verdict, items, notMet, unknown, record, cautions } = list;
  const met = items.length - notMet.length - unknown.length;
  const filling = jobNamed('fill');
  const isSettled = verdict === 'ready' || (record?.overrides.length ?? 0) > 0;
  return (
    <>
      <p class="verdict-of-list">
        <b>
          {verdict === 'ready'
            ? say('ready.isReady')
            : say(verdict === 'unknown' ? 'ready.isUnknown' : 'ready.isNotReady')}
        </b>
      </p>
      <p>{say('ready.sum', { notMet: notMet.length, unknown: unknown.length, met })}</p>
      {isSettled && filling ? (
        <p class="buttons">
          <ButtonLink href={addressOf(filling, bed)}>{say('ready.toFill')}</ButtonLink>
        </p>
      ) : null}
      <Notice kind="caution" title={say('ready.mind')}>
        <ul>
          {cautions.map((caution) => (
            <li key={caution}>
              <Told>{caution}</Told>
            </li>
          ))}
        </ul>
      </Notice>
    </>
  );
}

interface ListParts {
  readonly id: string;
  readonly name: string;
  readonly list: ReadinessNow;
  readonly probes: readonly string[];
  readonly again: SeenAnswer<unknown>['again'];
}

function List({ id, name, list, probes, again }: ListParts) {
  const [typed, change] = useKept<TypedReady>(draftName('ready', id), NOTHING);
  const [by, changeBy] = usePerson();
  const [taken, setTaken] = useState<'kept' | 'waits'>();
  const send = async (): Promise<void> => {
    setTaken(undefined);
    const body = bodyOf(typed, by);
    rememberPerson(by);
    const { kept } = await sendOrKeep({
      ...{ id: body.id, path: `/api/beds/${id}/readiness`, method: 'POST', body },
      title: say('ready.title', { bed: name }),
    });
    change(undefined);
    setTaken(kept ? 'waits' : 'kept');
    if (!kept) again();
  };
  return (
    <>
      <p>{say('ready.intro')}</p>
      <Form label={say('ready.form')} send={say('ready.send')} onSend={send}>
        {(wrongs) => (
          <>
            <Points
              now={list}
              probes={probes}
              of={{ bed: id, typed, change, before: list.answers, wrongs }}
            />
            {isTouched(typed) ? <p class="soft">{say('ready.draft')}</p> : null}
            <TextField
              label={say('ready.name')}
              value={by}
              autocomplete="name"
              onChange={changeBy}
              wrong={wrongs['by']}
              required
            />
          </>
        )}
      </Form>
      {taken === undefined ? null : (
        <Notice kind="done">
          <p>{taken === 'kept' ? say('ready.kept') : say('ready.keptHere')}</p>
        </Notice>
      )}
    </>
  );
}

/** With an id of its own, so that it is kept once. */
function bodyOf(typed: TypedReady, by: string) {
  expectAll(
    () => answersOf(typed),
    () => {
      if (by.trim() === '') throw new NotAsExpected({ by: say('ready.expectedName') });
    },
  );
  return { id: newId(), at: new Date().toISOString(), by: by.trim(), answers: answersOf(typed) };
}
