/** A group: people who keep beds together, and who leads them. */
import { useState } from 'preact/hooks';
import { useLocation, useRoute } from 'preact-iso';
import { useSeen } from '../api/seen.js';
import type { PeopleGroup, SiteDescription } from '../api/types/site.js';
import { Group, SelectField, TextField, Tick } from '../parts/field.js';
import { NotAsExpected } from '../parts/form.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { Back } from './back.js';
import { type Entry, putEntry, useEntry } from './entry.js';
import { EntryForm } from './entry-form.js';
import { idFrom, idProblem } from './machine-id.js';
import { OfSite, siteAddress } from './of-site.js';
import './settings.css';

export default function GroupPage() {
  const { params } = useRoute();
  const id = params['group'];
  return (
    <>
      <Back to="/settings/people" text={say('settings.toPeople')} />
      <OfSite>
        {(site) =>
          id === undefined ? <NewGroup site={site.id} /> : <KnownGroup key={id} site={site.id} id={id} />
        }
      </OfSite>
    </>
  );
}

function NewGroup({ site }: { site: string }) {
  const { route } = useLocation();
  const whole = useSeen<SiteDescription>(siteAddress(site));
  return (
    <>
      <Title>{say('settings.groupAdd')}</Title>
      <Shown of={whole}>
        {(description) =>
          description.people.length === 0 ? (
            <p>{say('settings.nobodyYet')}</p>
          ) : (
            <GroupForm
              {...{ site, whole: description }}
              entry={{
                content: { id: '', name: '', lead: description.people[0]?.id ?? '', members: [] },
                tag: undefined,
              }}
              onSaved={({ id }) => route(`/settings/groups/${id}`)}
              onAgain={() => undefined}
            />
          )
        }
      </Shown>
    </>
  );
}

function KnownGroup({ site, id }: { site: string; id: string }) {
  const read = useEntry<PeopleGroup>(`${siteAddress(site)}/groups/${encodeURIComponent(id)}`);
  const whole = useSeen<SiteDescription>(siteAddress(site));
  return (
    <>
      <Title>{read.answer?.content.name ?? id}</Title>
      <Shown of={whole}>
        {(description) => (
          <Shown of={read}>
            {(entry) => (
              <GroupForm key={entry.tag} {...{ site, entry, whole: description }} onAgain={read.again} />
            )}
          </Shown>
        )}
      </Shown>
    </>
  );
}

interface GroupFormParts {
  readonly site: string;
  readonly whole: SiteDescription;
  readonly entry: Entry<PeopleGroup>;
  readonly onSaved?: (group: PeopleGroup) => void;
  readonly onAgain: () => void;
}

function GroupForm({ site, whole: { people }, entry, onSaved, onAgain }: GroupFormParts) {
  const { content } = entry;
  const [tag, setTag] = useState(entry.tag);
  const isNew = tag === undefined;
  const [name, setName] = useState(content.name);
  const [lead, setLead] = useState(content.lead);
  const [members, setMembers] = useState(content.members);
  const id = isNew ? idFrom(name) : content.id;
  return (
    <EntryForm<PeopleGroup>
      label={isNew ? say('settings.groupAdd') : content.name}
      send={say(isNew ? 'settings.groupAdd' : 'settings.save')}
      check={() => {
        if (idProblem(id) !== undefined) throw new NotAsExpected({ 'group/name': say('settings.nameWrong') });
      }}
      onSend={async (by) => {
        const group = { id, name, lead, members };
        return putEntry(`${siteAddress(site)}/groups/${encodeURIComponent(id)}`, tag, { by, group });
      }}
      onSaved={({ version, entry: group }) => {
        setTag(`"${version}"`);
        onSaved?.(group);
      }}
      onReadAgain={onAgain}
    >
      {(wrongs) => (
        <>
          <p>{say('settings.groupAbout')}</p>
          <TextField
            label={say('settings.groupName')}
            value={name}
            onChange={setName}
            wrong={wrongs['group/name'] ?? wrongs['group/id']}
            required
          />
          <SelectField
            label={say('settings.groupLead')}
            value={lead}
            onChange={setLead}
            wrong={wrongs['group/lead']}
            options={people.map((person) => ({ value: person.id, label: person.name }))}
          />
          <Group label={say('settings.groupMembers')} wrong={wrongs['group/members']}>
            {people.map((person) => (
              <Tick
                key={person.id}
                label={person.name}
                checked={members.includes(person.id)}
                onChange={(isIn) =>
                  setMembers(isIn ? [...members, person.id] : members.filter((one) => one !== person.id))
                }
              />
            ))}
          </Group>
        </>
      )}
    </EntryForm>
  );
}
