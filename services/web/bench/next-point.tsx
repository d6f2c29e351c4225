/** What the probes are in now: the reference of the next point. */
import { useState } from 'preact/hooks';
import { ask } from '../api/client.js';
import { useSeen } from '../api/seen.js';
import type { Bench, Salt } from '../api/types/bench.js';
import { NumberField, SelectField } from '../parts/field.js';
import { Fold } from '../parts/fold.js';
import { Form, NotAsExpected, type Wrongs } from '../parts/form.js';
import { typedNumber } from '../parts/typed-number.js';
import { humidity } from '../words/numbers.js';
import { say } from '../words/say.js';
import { Cautions } from './cautions.js';
import { unitOf } from './measure.js';

type Kind = 'instrument' | 'ice-point' | 'boiling-point' | 'salt';

const KINDS = {
  temperature: ['ice-point', 'boiling-point', 'instrument'],
  humidity: ['salt', 'instrument'],
} as const satisfies Record<Bench['quantity'], readonly Kind[]>;

const KIND_WORDS = {
  instrument: 'bench.instrument',
  'ice-point': 'bench.icePoint',
  'boiling-point': 'bench.boilingPoint',
  salt: 'bench.salt',
} as const;

/** A field of a point: its key in the body, its words, its unit. */
interface Asked {
  readonly key: string;
  readonly word:
    | 'instrumentShows'
    | 'instrumentUncertainty'
    | 'jarTemperature'
    | 'jarUncertainty'
    | 'pressure'
    | 'pressureUncertainty';
  readonly unit: string;
  readonly optional?: boolean;
}

const fieldsOf = (kind: Kind, quantity: Bench['quantity']): readonly Asked[] => {
  const unit = unitOf(quantity);
  const jar: Asked = {
    key: 'temperature_C',
    word: 'jarTemperature',
    unit: '°C',
    optional: kind === 'instrument',
  };
  const fields: Readonly<Record<Kind, readonly Asked[]>> = {
    instrument: [
      { key: 'reference', word: 'instrumentShows', unit },
      { key: 'uncertainty', word: 'instrumentUncertainty', unit },
      ...(quantity === 'humidity' ? [jar] : []),
    ],
    'ice-point': [],
    'boiling-point': [
      { key: 'pressure_hPa', word: 'pressure', unit: 'hPa' },
      { key: 'pressureUncertainty_hPa', word: 'pressureUncertainty', unit: 'hPa' },
    ],
    salt: [jar, { key: 'temperatureUncertainty_C', word: 'jarUncertainty', unit: '°C' }],
  };
  return fields[kind];
};

export function NextPoint({ bench, again }: { bench: Bench; again: () => void }) {
  const isFirst = bench.points.length === 0;
  const form = <PointForm key={bench.points.length} bench={bench} again={again} />;
  return isFirst ? form : <Fold title={say('bench.nextPoint')}>{form}</Fold>;
}

function PointForm({ bench, again }: { bench: Bench; again: () => void }) {
  const [kind, setKind] = useState<Kind>(KINDS[bench.quantity][0]);
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const salts = useSeen<Salt[]>(kind === 'salt' ? '/api/bench/salts' : undefined).answer ?? [];
  const [salt, setSalt] = useState('sodium-chloride');
  const fields = fieldsOf(kind, bench.quantity);
  const send = async (): Promise<void> => {
    const body = { source: kind, ...(kind === 'salt' ? { salt } : {}), ...read(fields, typed) };
    await ask(`/api/bench/${bench.id}/points`, { method: 'POST', body });
    again();
  };
  return (
    <Form
      onSend={send}
      send={say(bench.points.length === 0 ? 'bench.startPoint' : 'bench.startAnother')}
      label={say('bench.nextPoint')}
    >
      {(wrongs) => (
        <>
          <SelectField
            label={say('bench.kind')}
            value={kind}
            onChange={(value) => setKind(value as Kind)}
            options={KINDS[bench.quantity].map((value) => ({ value, label: say(KIND_WORDS[value]) }))}
          />
          {kind === 'salt' ? <WhichSalt salts={salts} salt={salt} onChange={setSalt} /> : null}
          {fields.map(({ key, word, unit, optional }) => (
            <NumberField
              key={key}
              label={say(`bench.${word}`)}
              hint={key === 'uncertainty' ? say('bench.uncertaintyHint') : undefined}
              unit={unit}
              value={typed[key] ?? ''}
              onChange={(value) => setTyped({ ...typed, [key]: value })}
              wrong={wrongs[key]}
              required={!optional}
            />
          ))}
        </>
      )}
    </Form>
  );
}

/** @throws NotAsExpected naming each field that is no number */
function read(fields: readonly Asked[], typed: Readonly<Record<string, string>>): Record<string, number> {
  const values: Record<string, number> = {};
  const wrongs: Record<string, string> = {};
  for (const { key, unit, optional } of fields) {
    const value = typedNumber(typed[key] ?? '');
    if (value === undefined && optional) continue;
    if (value === undefined || Number.isNaN(value)) wrongs[key] = say('parts.numberExpected', { unit });
    else values[key] = value;
  }
  if (Object.keys(wrongs).length > 0) throw new NotAsExpected(wrongs satisfies Wrongs);
  return values;
}

interface SaltParts {
  readonly salts: readonly Salt[];
  readonly salt: string;
  readonly onChange: (salt: string) => void;
}

function WhichSalt({ salts, salt, onChange }: SaltParts) {
  const chosen = salts.find(({ id }) => id === salt);
  return (
    <>
      <SelectField
        label={say('bench.whichSalt')}
        value={salt}
        onChange={onChange}
        options={salts.map(({ id, name, at25_C }) => ({
          value: id,
          label: say('bench.saltOption', { name, value: humidity(at25_C.humidity_RH, 1) }),
        }))}
      />
      <Cautions texts={chosen?.cautions ?? []} />
    </>
  );
}
