/** The form of a person. */
import { useState } from 'preact/hooks';
import { LANGUAGE_CODES } from '../../core/model/languages.js';
import type { Person, SiteDescription } from '../api/types/site.js';
import { Group, SelectField, TextField, Tick } from '../parts/field.js';
import type { Wrongs } from '../parts/form.js';
import { Typed } from '../parts/typed.js';
import { ownName } from '../words/own-names.js';
import { say } from '../words/say.js';
import { ALARM_KINDS } from './alarm-kinds.js';
import { type Entry, putEntry, withoutGaps } from './entry.js';
import { EntryForm } from './entry-form.js';
import { idFrom, idProblem } from './machine-id.js';
import { siteAddress } from './of-site.js';
import { reachOf, typedWays, WaysFields } from './ways-fields.js';

interface PersonFormParts {
  readonly site: string;
  readonly whole: SiteDescription;
  readonly entry: Entry<Person>;
  readonly onSaved?: (person: Person) => void;
  readonly onAgain: () => void;
}

export function PersonForm({ site, whole, entry, onSaved, onAgain }: PersonFormParts) {
  const { content } = entry;
  const [tag, setTag] = useState(entry.tag);
  const isNew = tag === undefined;
  const [name, setName] = useState(content.name);
  const [tongue, setTongue] = useState(content.language);
  const [ways, setWays] = useState(() => typedWays(content.reach));
  const [quiet, setQuiet] = useState(content.quiet ?? { from: '', to: '' });
  const [beds, setBeds] = useState(content.beds ?? []);
  const [kinds, setKinds] = useState<readonly string[]>(content.kinds ?? ALARM_KINDS);
  const [lead, setLead] = useState(content.lead ?? false);
  const id = isNew ? idFrom(name) : content.id;
  const made = (): Person => {
    const isQuiet = quiet.from !== '' || quiet.to !== '';
    return withoutGaps({
      ...{ ...content, id, name, language: tongue, reach: reachOf(ways) },
      quiet: isQuiet ? quiet : undefined,
      beds: beds.length > 0 ? beds : undefined,
      kinds: kinds.length < ALARM_KINDS.length ? kinds : undefined,
      lead: lead ? true : undefined,
    });
  };
  const check = (): void => {
    const typed = new Typed();
    if (idProblem(id) !== undefined) typed.wrong('person/name', say('settings.nameWrong'));
    if (kinds.length === 0) typed.wrong('person/kinds', say('settings.kindsMissing'));
    typed.done();
  };
  return (
    <EntryForm<Person>
      label={isNew ? say('settings.personAdd') : content.name}
      send={say(isNew ? 'settings.personAdd' : 'settings.save')}
      check={check}
      onSend={(by) => {
        const person = made();
        const path = `${siteAddress(site)}/people/${encodeURIComponent(id)}`;
        return putEntry<Person>(path, tag, { by, person });
      }}
      onSaved={({ version, entry: person }) => {
        setTag(`"${version}"`);
        onSaved?.(person);
      }}
      onReadAgain={onAgain}
    >
      {(wrongs) => (
        <>
          <TextField
            label={say('settings.personName')}
            value={name}
            onChange={setName}
            wrong={wrongs['person/name'] ?? wrongs['person/id']}
            required
          />
          <Tongue value={tongue} onChange={setTongue} wrong={wrongs['person/language']} />
          <WaysFields ways={ways} onChange={setWays} wrongs={wrongs} />
          <fieldset class="part">
            <legend>{say('settings.quiet')}</legend>
            <p class="soft">{say('settings.quietHint')}</p>
            <div class="side-by-side">
              <TextField
                label={say('settings.quietFrom')}
                type="time"
                value={quiet.from}
                onChange={(from) => setQuiet({ ...quiet, from })}
                wrong={wrongs['person/quiet/from'] ?? wrongs['person/quiet']}
              />
              <TextField
                label={say('settings.quietTo')}
                type="time"
                value={quiet.to}
                onChange={(to) => setQuiet({ ...quiet, to })}
                wrong={wrongs['person/quiet/to']}
              />
            </div>
          </fieldset>
          <Told {...{ whole, beds, setBeds, kinds, setKinds, lead, setLead, wrongs }} />
        </>
      )}
    </EntryForm>
  );
}

interface TongueParts {
  readonly value: string;
  readonly onChange: (code: string) => void;
  readonly wrong: string | undefined;
}

/** Messages are written in; a region that the description gives stays. */
function Tongue({ value, onChange, wrong }: TongueParts) {
  const codes = [...new Set<string>([...LANGUAGE_CODES, value])];
  return (
    <SelectField
      label={say('settings.messagesIn')}
      hint={say('settings.messagesHint')}
      value={value}
      onChange={onChange}
      wrong={wrong}
      options={codes.map((code) => ({
        value: code,
        label: code.startsWith('en')
          ? ownName(code)
          : say('settings.languageDraft', { language: ownName(code) }),
      }))}
    />
  );
}

interface ToldParts {
  readonly whole: SiteDescription;
  readonly beds: readonly string[];
  readonly setBeds: (beds: readonly string[]) => void;
  readonly kinds: readonly string[];
  readonly setKinds: (kinds: readonly string[]) => void;
  readonly lead: boolean;
  readonly setLead: (lead: boolean) => void;
  readonly wrongs: Wrongs;
}

const withOrWithout = (list: readonly string[], one: string, isIn: boolean): readonly string[] =>
  isIn ? [...list, one] : list.filter((other) => other !== one);

function Told({ whole, beds, setBeds, kinds, setKinds, lead, setLead, wrongs }: ToldParts) {
  return (
    <>
      <Group
        label={say('settings.alsoBeds')}
        hint={say('settings.alsoBedsHint')}
        wrong={wrongs['person/beds']}
      >
        {whole.beds.map(({ id, name }) => (
          <Tick
            key={id}
            label={name}
            checked={beds.includes(id)}
            onChange={(isIn) => setBeds(withOrWithout(beds, id, isIn))}
          />
        ))}
      </Group>
      <Group label={say('settings.whichAlarms')} wrong={wrongs['person/kinds']}>
        {ALARM_KINDS.map((kind) => (
          <Tick
            key={kind}
            label={say(`settings.alarm_${kind}`)}
            checked={kinds.includes(kind)}
            onChange={(isIn) => setKinds(withOrWithout(kinds, kind, isIn))}
          />
        ))}
      </Group>
      <Tick label={say('settings.leads')} checked={lead} onChange={setLead} />
    </>
  );
}
