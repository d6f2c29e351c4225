import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { ask } from '../api/client.js';
import { useSeen } from '../api/seen.js';
import type { Bench, Quantity } from '../api/types/bench.js';
import type { KnownProbe } from '../api/types/settings.js';
import { Choice, SelectField, TextField } from '../parts/field.js';
import { Form } from '../parts/form.js';
import { rememberPerson, usePerson } from '../parts/person.js';
import { Shown } from '../parts/shown.js';
import { Typed } from '../parts/typed.js';
import { say } from '../words/say.js';
import { ChooseProbes, isFree } from './choose-probes.js';

export function BeginBench() {
  const { route } = useLocation();
  const known = useSeen<readonly KnownProbe[]>('/api/probes?limit=2000', {
    live: ['bench', 'probes', 'site'],
  });
  const all = known.answer ?? [];
  const sites = [...new Set(all.map(({ site }) => site))];
  const [site, setSite] = useState('');
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const [quantity, setQuantity] = useState<Quantity>('temperature');
  const [by, setBy] = usePerson();
  const [reference, setReference] = useState('');
  const [serial, setSerial] = useState('');
  const [certificate, setCertificate] = useState('');
  const here = all.filter((probe) => probe.site === (site || sites[0]));
  // One that was put into a bed meanwhile is in the list no more.
  const names = chosen.filter((id) => here.some((probe) => probe.id === id && isFree(probe)));
  const send = async (): Promise<void> => {
    const typed = new Typed();
    if (names.length === 0) typed.wrong('probes', say('bench.probesMissing'));
    typed.text('by', by);
    typed.text('reference/name', reference);
    typed.done();
    const bench = await ask<Bench>('/api/bench', {
      method: 'POST',
      body: {
        ...{ site: site || sites[0] || '', probes: names, quantity, by },
        reference: { name: reference, ...(serial && { serial }), ...(certificate && { certificate }) },
      },
    });
    rememberPerson(by);
    route(`/bench/${bench.id}`);
  };
  return (
    <Form onSend={send} send={say('bench.begin')} label={say('bench.beginTitle')}>
      {(wrongs) => (
        <>
          {sites.length > 1 ? (
            <SelectField
              label={say('bench.site')}
              value={site || (sites[0] ?? '')}
              onChange={setSite}
              options={sites.map((id) => ({ value: id, label: id }))}
            />
          ) : null}
          <Shown of={known}>
            {() => (
              <ChooseProbes
                probes={here}
                chosen={names}
                onChange={setChosen}
                wrong={wrongs['probes'] ?? wrongs['probes/0'] ?? wrongs['site']}
              />
            )}
          </Shown>
          <Choice
            label={say('bench.quantity')}
            value={quantity}
            onChange={(value) => setQuantity(value as Quantity)}
            options={(['temperature', 'humidity'] as const).map((value) => ({
              value,
              label: say(`bench.${value}`),
            }))}
          />
          <TextField label={say('bench.by')} value={by} onChange={setBy} wrong={wrongs['by']} required />
          <TextField
            label={say('bench.reference')}
            hint={say('bench.referenceHint')}
            value={reference}
            onChange={setReference}
            wrong={wrongs['reference/name']}
            required
          />
          <TextField
            label={say('bench.serial')}
            value={serial}
            onChange={setSerial}
            wrong={wrongs['reference/serial']}
          />
          <TextField
            label={say('bench.certificate')}
            value={certificate}
            onChange={setCertificate}
            wrong={wrongs['reference/certificate']}
          />
        </>
      )}
    </Form>
  );
}
