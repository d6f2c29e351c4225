/** What went into a bed, where its probes came to lie, when and by whom. */
import { useState } from 'preact/hooks';
import { blocksOf } from '../../../core/model/bed.js';
import { sendOrKeep, type Taken } from '../../api/send-or-keep.js';
import type { BedToFill, Filled, Filling } from '../../api/types/filling.js';
import { Group, NumberField, TextField, Tick } from '../../parts/field.js';
import { expectAll, Form, NotAsExpected } from '../../parts/form.js';
import { rememberPerson, usePerson } from '../../parts/person.js';
import { PersonField } from '../../parts/person-field.js';
import { TimeField } from '../../parts/time-field.js';
import { say } from '../../words/say.js';
import { dayOf } from '../../words/times.js';
import { zonedTime } from '../../words/zoned.js';
import { Courses } from './courses.js';
import type { FillDraft } from './draft.js';
import { fillingBody } from './filling-body.js';
import { Places } from './places.js';

interface FillFormParts {
  readonly bed: BedToFill;
  /** Of this site, that may be buried. */
  readonly probes: readonly string[];
  /** People of the site. */
  readonly names: readonly string[];
  /** Earlier ones: what is grown here comes again. */
  readonly fillings: readonly Filling[];
  readonly draft: FillDraft;
  readonly onChange: (draft: FillDraft) => void;
  readonly onTaken: (taken: Taken<Filled>) => void;
}

/** Where a filling is at another time than that at which the bed was filled, it is another filling. */
const SAME_ms = 24 * 3_600_000;

/** Whether a bed that is full is begun anew: what is told of it ends with that. */
const beginsAnew = (filled: string | null, { at, supersedes }: FillDraft): boolean =>
  filled !== null && supersedes === undefined && Date.parse(zonedTime(at)) - Date.parse(filled) > SAME_ms;

export function FillForm({ bed, probes, names, fillings, draft, onChange, onTaken }: FillFormParts) {
  const [by, setBy] = usePerson();
  const change = (part: Partial<FillDraft>): void => onChange({ ...draft, ...part });
  const blocks = blocksOf(bed.steps);
  const path = `/api/beds/${encodeURIComponent(bed.id)}/fillings`;
  const [anew, setAnew] = useState(false);
  const isAnew = beginsAnew(bed.filled, draft);
  const send = async (): Promise<void> => {
    expectAll(
      () => fillingBody(draft, by, blocks),
      () => {
        if (isAnew && !anew) throw new NotAsExpected({ anew: say('fill.tickAnew') });
      },
    );
    const body = fillingBody(draft, by, blocks);
    rememberPerson(by);
    const title = say('fill.waitingTitle', { bed: bed.name });
    onTaken(
      await sendOrKeep<Filled>({
        ...{ id: draft.id, path, method: 'POST', body, title, opens: `/jobs/fill/${bed.id}` },
      }),
    );
  };
  const text = (key: 'cultivar' | 'field' | 'lot', label: string, wrong: string | undefined) => (
    <TextField
      {...{ label, wrong }}
      value={draft[key]}
      onChange={(value) => change({ [key]: value })}
      suggestions={[...new Set(fillings.flatMap((filling) => filling[key] ?? []))]}
    />
  );
  return (
    <Form
      label={say('fill.form')}
      send={draft.supersedes === undefined ? say('fill.send') : say('fill.sendMended')}
      onSend={send}
    >
      {(wrongs) => (
        <>
          <h3>{say('fill.roots')}</h3>
          <Courses courses={draft.courses} onChange={(courses) => change({ courses })} wrongs={wrongs} />
          <NumberField
            label={say('fill.massOfAll')}
            hint={say('fill.massOfAllHint')}
            unit={say('fill.kg')}
            value={draft.mass}
            onChange={(mass) => change({ mass })}
            wrong={wrongs['mass_kg']}
          />
          {text('cultivar', say('fill.cultivar'), wrongs['cultivar'])}
          {text('field', say('fill.field'), wrongs['field'])}
          {text('lot', say('fill.lot'), wrongs['lot'])}
          <h3>{say('fill.probes')}</h3>
          <Places
            {...{ blocks, probes, wrongs }}
            places={draft.places}
            onChange={(places) => change({ places })}
          />
          <h3>{say('fill.whenAndWho')}</h3>
          <TimeField
            label={say('fill.at')}
            value={draft.at}
            onChange={(at) => change({ at })}
            wrong={wrongs['at']}
          />
          {isAnew && bed.filled !== null ? (
            <Group label={say('fill.beginsAnew', { day: dayOf(bed.filled) })} wrong={wrongs['anew']}>
              <Tick label={say('fill.isEmptied')} checked={anew} onChange={setAnew} />
            </Group>
          ) : null}
          <PersonField names={names} value={by} onChange={setBy} wrong={wrongs['by']} />
          <TextField
            label={say('fill.note')}
            rows={3}
            value={draft.note}
            onChange={(note) => change({ note })}
            wrong={wrongs['note']}
          />
        </>
      )}
    </Form>
  );
}
