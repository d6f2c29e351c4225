/** Roots that went out of a bed, or in. */
import { useState } from 'preact/hooks';
import { newId } from '../../api/new-id.js';
import { sendOrKeep, type Taken } from '../../api/send-or-keep.js';
import type { EntryBody, Stocked } from '../../api/types/stock.js';
import { Choice, NumberField, SelectField } from '../../parts/field.js';
import { Form } from '../../parts/form.js';
import { rememberPerson, usePerson } from '../../parts/person.js';
import { PersonField } from '../../parts/person-field.js';
import { notBefore, TimeField, timeNow, typedTime } from '../../parts/time-field.js';
import { Typed } from '../../parts/typed.js';
import { typedNumber } from '../../parts/typed-number.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import { zonedText } from '../../words/zoned.js';
import { reasonWord } from './left.js';

const OUT = ['eaten', 'sold', 'seed', 'fed', 'thrown', 'missing'] as const;
const IN = ['added', 'put-back'] as const;

const ROOTS = { least: 1, most: 1_000_000, whole: true };
const MASS_kg = { least: 0.001, most: 1_000_000 };

export interface EntryTyped {
  readonly id: string;
  readonly kind: 'in' | 'out';
  readonly reason: string;
  readonly roots: string;
  readonly mass: string;
  readonly at: string;
}

/** An entry that was not taken, as it was typed. */
export const entryAgain = ({ id, kind, reason, roots, mass_kg, at }: EntryBody): EntryTyped | undefined =>
  kind === 'counter'
    ? undefined
    : {
        ...{ id, kind, reason, roots: String(roots), mass: String(mass_kg ?? '') },
        at: zonedText(Date.parse(at)),
      };

const newEntry = (): EntryTyped => ({
  ...{ id: newId(), kind: 'out', reason: 'eaten', roots: '', mass: '', at: timeNow() },
});

interface FormParts {
  readonly bed: string;
  readonly name: string;
  /** By the ledger; null where it is not kept. */
  readonly left: number | null;
  /** When its last filling was written down to be, ISO 8601. */
  readonly filledAt: string | null;
  /** People of the site. */
  readonly names: readonly string[];
  /** One that was not taken, to be mended. */
  readonly begin?: EntryTyped | undefined;
  /** Undefined while one is on its way. */
  readonly onTaken: (taken: Taken<Stocked> | undefined) => void;
}

export function EntryForm({ bed, name, left, filledAt, names, begin, onTaken }: FormParts) {
  const [entry, setEntry] = useState(begin ?? newEntry);
  const [by, setBy] = usePerson();
  const change = (part: Partial<EntryTyped>): void => setEntry({ ...entry, ...part });
  const send = async (): Promise<void> => {
    const body = entryBody(entry, by, filledAt);
    rememberPerson(by);
    onTaken(undefined);
    const taken = await sendEntry(bed, body, titleOf(body, name));
    setEntry(newEntry());
    onTaken(taken);
  };
  const isTooMany = entry.kind === 'out' && left !== null && (typedNumber(entry.roots) ?? 0) > left;
  const time = typedTime(entry.at);
  const isBefore =
    time !== undefined && filledAt !== null && Date.parse(notBefore(time, filledAt)) < Date.parse(filledAt);
  const reasons = entry.kind === 'out' ? OUT : IN;
  return (
    <Form label={say('stock.writeDown')} send={say('stock.send')} onSend={send}>
      {(wrongs) => (
        <>
          <div class="abreast">
            <Choice
              label={say('stock.way')}
              value={entry.kind}
              onChange={(kind) =>
                change(kind === 'in' ? { kind: 'in', reason: 'added' } : { kind: 'out', reason: 'eaten' })
              }
              options={[
                { value: 'out', label: say('stock.out') },
                { value: 'in', label: say('stock.in') },
              ]}
            />
            <SelectField
              label={say('stock.reason')}
              value={entry.reason}
              onChange={(reason) => change({ reason })}
              options={reasons.map((reason) => ({ value: reason, label: reasonWord(reason) }))}
              wrong={wrongs['0/reason']}
            />
          </div>
          <div class="abreast">
            <NumberField
              label={say('stock.rootsHead')}
              whole
              required
              hint={isTooMany ? say('stock.onlyLeft', { left: number(left) }) : undefined}
              value={entry.roots}
              onChange={(roots) => change({ roots })}
              wrong={wrongs['0/roots']}
            />
            <NumberField
              label={say('stock.massHead')}
              hint={say('stock.massHint')}
              unit={say('stock.unitKg')}
              value={entry.mass}
              onChange={(mass) => change({ mass })}
              wrong={wrongs['0/mass_kg']}
            />
          </div>
          {entry.reason === 'fed' || entry.reason === 'eaten' ? (
            <p class="soft">{say('stock.caution')}</p>
          ) : null}
          <div class="abreast">
            <TimeField
              label={say('stock.at')}
              value={entry.at}
              onChange={(at) => change({ at })}
              wrong={wrongs['0/at']}
              note={isBefore ? say('stock.beforeFilling', { when: dayAndTime(filledAt ?? 0) }) : undefined}
            />
            <PersonField names={names} value={by} onChange={setBy} wrong={wrongs['0/by']} />
          </div>
        </>
      )}
    </Form>
  );
}

/** Places are those of the service, which takes a list: `0/roots`. */
function entryBody(
  { id, kind, reason, roots, mass, at }: EntryTyped,
  by: string,
  filledAt: string | null,
): EntryBody {
  const typed = new Typed();
  const mass_kg = typed.maybe('0/mass_kg', mass, MASS_kg);
  const body = {
    ...{ id, kind, reason },
    roots: typed.number('0/roots', roots, ROOTS),
    ...(mass_kg === undefined ? {} : { mass_kg }),
    at: notBefore(typed.time('0/at', at), filledAt),
    by: typed.text('0/by', by),
  };
  typed.done();
  return body;
}

export const sendEntry = (bed: string, body: EntryBody, title: string): Promise<Taken<Stocked>> =>
  sendOrKeep<Stocked>({
    ...{ id: body.id, method: 'POST', path: `/api/beds/${encodeURIComponent(bed)}/stock`, body, title },
    opens: `/jobs/stock/${bed}`,
  });

const titleOf = ({ kind, roots, reason }: EntryBody, bed: string): string =>
  say(kind === 'in' ? 'stock.waitingIn' : 'stock.waitingOut', { roots, reason: reasonWord(reason), bed });
