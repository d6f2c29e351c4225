/** An entry that was wrong is taken back, in whole or in part, with the reason; it is never changed. */
import { useState } from 'preact/hooks';
import { newId } from '../../api/new-id.js';
import type { Taken } from '../../api/send-or-keep.js';
import type { EntryBody, StockEntry, Stocked } from '../../api/types/stock.js';
import { Button } from '../../parts/button.js';
import { NumberField, TextField } from '../../parts/field.js';
import { Form } from '../../parts/form.js';
import { rememberPerson, usePerson } from '../../parts/person.js';
import { PersonField } from '../../parts/person-field.js';
import { Typed } from '../../parts/typed.js';
import { say } from '../../words/say.js';
import { sendEntry } from './entry-form.js';

const MASS_kg = { least: 0.001, most: 1_000_000 };

interface TakeBackParts {
  readonly bed: string;
  readonly name: string;
  readonly entry: StockEntry;
  /** Roots of it that were not taken back before. */
  readonly rest: number;
  /** People of the site. */
  readonly names: readonly string[];
  readonly onTaken: (taken: Taken<Stocked>) => void;
  readonly onLeave: () => void;
}

export function TakeBack({ bed, name, names, entry, rest, onTaken, onLeave }: TakeBackParts) {
  const [id] = useState(newId);
  const [roots, setRoots] = useState(String(rest));
  const [mass, setMass] = useState(rest === entry.roots ? String(entry.mass_kg ?? '') : '');
  const [reason, setReason] = useState('');
  const [by, setBy] = usePerson();
  const send = async (): Promise<void> => {
    const typed = new Typed();
    const mass_kg = typed.maybe('0/mass_kg', mass, MASS_kg);
    const body: EntryBody = {
      ...{ id, kind: 'counter', of: entry.id, at: new Date().toISOString() },
      roots: typed.number('0/roots', roots, { least: 1, most: rest, whole: true }),
      ...(mass_kg === undefined ? {} : { mass_kg }),
      reason: typed.text('0/reason', reason),
      by: typed.text('0/by', by),
    };
    typed.done();
    rememberPerson(by);
    onTaken(await sendEntry(bed, body, say('stock.waitingBack', { roots: body.roots, bed: name })));
  };
  return (
    <Form
      label={say('stock.takeBack')}
      send={say('stock.takeBackSend')}
      onSend={send}
      beside={
        <Button kind="quiet" onPress={onLeave}>
          {say('stock.leave')}
        </Button>
      }
    >
      {(wrongs) => (
        <>
          <div class="abreast">
            <NumberField
              label={say('stock.rootsBack')}
              whole
              required
              value={roots}
              onChange={setRoots}
              wrong={wrongs['0/roots']}
            />
            {entry.mass_kg === undefined ? null : (
              <NumberField
                label={say('stock.massHead')}
                unit={say('stock.unitKg')}
                value={mass}
                onChange={setMass}
                wrong={wrongs['0/mass_kg']}
              />
            )}
          </div>
          <TextField
            label={say('stock.why')}
            required
            value={reason}
            onChange={setReason}
            wrong={wrongs['0/reason']}
          />
          <PersonField names={names} value={by} onChange={setBy} wrong={wrongs['0/by']} />
        </>
      )}
    </Form>
  );
}
