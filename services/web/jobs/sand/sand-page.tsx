/** Sand judged by what was sieved, weighed and measured warm; kept for a bed with who said so. */

import { useEffect, useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { mayDo } from '../../access/may.js';
import { useMe } from '../../access/me.js';
import { ask } from '../../api/client.js';
import { newId } from '../../api/new-id.js';
import { useSeen } from '../../api/seen.js';
import { sendOrKeep } from '../../api/send-or-keep.js';
import type { Sand } from '../../api/types/sand.js';
import type { BedAtWork } from '../../api/types/work.js';
import { expectAll, Form, NotAsExpected } from '../../parts/form.js';
import { keep, useKept } from '../../parts/kept.js';
import { Notice } from '../../parts/notice.js';
import { personNow, rememberPerson, usePerson } from '../../parts/person.js';
import { Title } from '../../parts/title.js';
import { say } from '../../words/say.js';
import { draftName } from '../drafts.js';
import { EarlierSand } from './earlier-sand.js';
import { KeepFields, SandFields } from './sand-fields.js';
import { SandShown } from './sand-shown.js';
import { EMPTY_SAND, measuredOf, type TypedSand } from './typed-sand.js';
import './sand.css';

/** What became of what was sent. */
type Outcome =
  | { readonly is: 'judged'; readonly sand: Sand }
  | { readonly is: 'kept'; readonly sand: Sand; readonly bed: string }
  | { readonly is: 'waits' };

export default function SandPage() {
  const [typed, change] = useKept<TypedSand>(draftName('sand'), EMPTY_SAND);
  const [by, changeBy] = usePerson();
  const [outcome, setOutcome] = useState<Outcome>();
  const forBed = useLocation().query['bed'];
  useEffect(() => {
    if (forBed !== undefined) change({ ...typed, bed: forBed });
  }, [forBed]);
  const me = useMe();
  const beds = useSeen<readonly BedAtWork[]>('/api/beds').answer ?? [];
  const own = beds.filter(({ id }) => mayDo(me, 'write-down', id));
  const nameOf = (id: string): string => beds.find((bed) => bed.id === id)?.name ?? id;
  const shownBed = typed.bed === '' && outcome?.is === 'kept' ? outcome.bed : typed.bed;
  const send = async (): Promise<void> => {
    setOutcome(undefined);
    setOutcome(await sent(typed, by, nameOf));
    if (typed.bed !== '') keep(draftName('sand'), undefined);
  };
  return (
    <>
      <Title>{say('sand.title')}</Title>
      <p>{say('sand.intro')}</p>
      <div class="sand-page">
        <Form
          label={say('sand.form')}
          send={typed.bed === '' ? say('sand.send') : say('sand.sendKeep')}
          onSend={send}
        >
          {(wrongs) => (
            <>
              <SandFields typed={typed} change={change} wrongs={wrongs} />
              {own.length === 0 ? null : (
                <KeepFields {...{ typed, change, wrongs, by, changeBy }} beds={own} />
              )}
            </>
          )}
        </Form>
        <div>
          <Outcomes outcome={outcome} nameOf={nameOf} />
          {shownBed === '' ? null : (
            <EarlierSand key={shownBed} bed={shownBed} name={nameOf(shownBed)} anew={outcome} />
          )}
        </div>
      </div>
    </>
  );
}

async function sent(typed: TypedSand, by: string, nameOf: (bed: string) => string): Promise<Outcome> {
  expectAll(
    () => measuredOf(typed),
    () => {
      if (typed.bed !== '' && by.trim() === '') throw new NotAsExpected({ by: say('sand.expectedName') });
    },
  );
  const measured = measuredOf(typed);
  if (typed.bed === '')
    return { is: 'judged', sand: await ask<Sand>('/api/sand', { method: 'POST', body: measured }) };
  rememberPerson(by);
  const id = newId();
  const note = typed.note.trim();
  const taken = await sendOrKeep<Sand>({
    id,
    path: `/api/beds/${typed.bed}/sand`,
    method: 'POST',
    body: { id, ...measured, by: personNow(), at: new Date().toISOString(), ...(note && { note }) },
    title: `${say('sand.title')}: ${nameOf(typed.bed)}`,
  });
  return taken.kept ? { is: 'waits' } : { is: 'kept', sand: taken.answer, bed: typed.bed };
}

function Outcomes({ outcome, nameOf }: { outcome: Outcome | undefined; nameOf: (bed: string) => string }) {
  if (!outcome) return null;
  if (outcome.is === 'waits')
    return (
      <Notice kind="done">
        <p>{say('sand.keptHere')}</p>
      </Notice>
    );
  return (
    <SandShown report={outcome.sand.report}>
      {outcome.is === 'kept' ? (
        <Notice kind="done">
          <p>{say('sand.wasKept', { bed: nameOf(outcome.bed) })}</p>
        </Notice>
      ) : null}
    </SandShown>
  );
}
