import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { ask } from '../api/client.js';
import type { Bench, Due, Quantity } from '../api/types/bench.js';
import { Choice, SelectField, TextField } from '../parts/field.js';
import { Form, NotAsExpected } from '../parts/form.js';
import { rememberPerson, usePerson } from '../parts/person.js';
import { say } from '../words/say.js';

/** @param due every probe that the service knows of, with its site */
export function BeginBench({ due }: { due: readonly Due[] }) {
  const { route } = useLocation();
  const sites = [...new Set(due.map(({ site }) => site))];
  const [site, setSite] = useState('');
  const [probes, setProbes] = useState('');
  const [quantity, setQuantity] = useState<Quantity>('temperature');
  const [by, setBy] = usePerson();
  const [reference, setReference] = useState('');
  const [serial, setSerial] = useState('');
  const [certificate, setCertificate] = useState('');
  const send = async (): Promise<void> => {
    const names = probes.split(/[\s,;]+/).filter((name) => name !== '');
    if (names.length === 0) throw new NotAsExpected({ probes: say('bench.probesHint') });
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
          {sites.length === 0 ? (
            <TextField
              label={say('bench.site')}
              value={site}
              onChange={setSite}
              wrong={wrongs['site']}
              required
            />
          ) : null}
          <TextField
            label={say('bench.probes')}
            hint={say('bench.probesHint')}
            value={probes}
            onChange={setProbes}
            wrong={wrongs['probes'] ?? wrongs['probes/0']}
            required
          />
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
