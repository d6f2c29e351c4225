/** The form of a bed, with its drawing as it is typed. */
import { useState } from 'preact/hooks';
import type { DescribedBed, SiteDescription } from '../api/types/site.js';
import { Choice, SelectField, TextField } from '../parts/field.js';
import type { Wrongs } from '../parts/form.js';
import { Typed } from '../parts/typed.js';
import { say } from '../words/say.js';
import { BedViews, type NamedPoint } from './bed-views.js';
import { type Entry, putEntry, withoutGaps } from './entry.js';
import { EntryForm } from './entry-form.js';
import { EscalationFields, typedSteps, whoCanBeTold } from './escalation.js';
import { idFrom, idProblem } from './machine-id.js';
import { siteAddress } from './of-site.js';
import { SIDES, StepsFields, stepOf, type TypedSides, typedSides } from './steps-fields.js';

interface BedFormParts {
  readonly site: string;
  readonly whole: SiteDescription;
  readonly entry: Entry<DescribedBed>;
  readonly onSaved?: (bed: DescribedBed) => void;
  readonly onAgain: () => void;
}

export function BedForm({ site, whole, entry, onSaved, onAgain }: BedFormParts) {
  const { content } = entry;
  const [tag, setTag] = useState(entry.tag);
  const isNew = tag === undefined;
  const [name, setName] = useState(content.name);
  const [ownId, setOwnId] = useState<string>();
  const [kind, setKind] = useState(content.kind);
  const [steps, setSteps] = useState<readonly TypedSides[]>(
    content.steps.length > 0 ? content.steps.map(typedSides) : [typedSides()],
  );
  const [keeper, setKeeper] = useState(content.keeper ?? '');
  const [escalation, setEscalation] = useState(typedSteps(content.escalation));
  const id = isNew ? (ownId ?? idFrom(name)) : content.id;
  const shown = kind === 'box' ? steps.slice(0, 1) : steps;
  const made = (): DescribedBed => {
    return withoutGaps({
      ...{ ...content, id, name, kind, steps: shown.map(stepOf) },
      keeper: keeper === '' ? undefined : keeper,
      escalation: escalation.length > 0 ? escalation.map((step) => step.made()) : undefined,
    });
  };
  const path = `${siteAddress(site)}/beds/${encodeURIComponent(id)}`;
  return (
    <EntryForm<DescribedBed>
      label={isNew ? say('settings.bedAdd') : content.name}
      send={say(isNew ? 'settings.bedAdd' : 'settings.save')}
      check={() => checkBed(id, name, shown)}
      onSend={(by) => {
        const bed = made();
        return putEntry<DescribedBed>(path, tag, { by, bed });
      }}
      onSaved={({ version, entry: bed }) => {
        setTag(`"${version}"`);
        onSaved?.(bed);
      }}
      onReadAgain={onAgain}
    >
      {(wrongs) => (
        <>
          <Names {...{ wrongs, name, setName, id, isNew }} onId={setOwnId} />
          <Choice
            label={say('settings.bedKind')}
            value={kind}
            onChange={(chosen) => setKind(chosen as DescribedBed['kind'])}
            options={[
              { value: 'stepped-pit', label: say('settings.kindPit') },
              { value: 'box', label: say('settings.kindBox') },
            ]}
          />
          <div class="desk-pair">
            <div>
              <p class="soft">{say('settings.stepsHint')}</p>
              <StepsFields steps={shown} onChange={setSteps} isBox={kind === 'box'} wrongs={wrongs} />
              <OfBed wrongs={wrongs} />
            </div>
            <BedViews steps={shown.map(stepOf)} others={probesIn(whole, content.id)} />
          </div>
          <SelectField
            label={say('settings.keeper')}
            hint={say('settings.keeperHint')}
            value={keeper}
            onChange={setKeeper}
            wrong={wrongs['bed/keeper']}
            options={[{ value: '', label: say('settings.nobody') }, ...whoCanBeTold(whole)]}
          />
          <EscalationFields
            hint={say('settings.escalationBedHint')}
            steps={escalation}
            onChange={setEscalation}
            options={whoCanBeTold(whole)}
            wrongs={wrongs}
            place="bed/escalation"
          />
        </>
      )}
    </EntryForm>
  );
}

/** Sides of a step, cm [core/model/site]. */
const SIDE_cm = { least: 0.1, most: 10_000 } as const;

/** @throws NotAsExpected with all that is wrong */
function checkBed(id: string, name: string, steps: readonly TypedSides[]): void {
  const typed = new Typed();
  const problem = idProblem(id);
  typed.text('bed/name', name);
  if (problem !== undefined) typed.wrong('bed/id', problem);
  for (const [index, step] of steps.entries())
    for (const side of SIDES) typed.number(`bed/steps/${index}/${side}`, step[side], SIDE_cm);
  typed.done();
}

/** What is wrong with the shape as a whole: a probe would stand outside it. */
function OfBed({ wrongs }: { wrongs: Wrongs }) {
  const wrong = wrongs['bed'] ?? wrongs['bed/steps'];
  return wrong ? (
    <p class="wrong" lang="en" role="alert">
      {wrong}
    </p>
  ) : null;
}

interface NamesParts {
  readonly wrongs: Wrongs;
  readonly name: string;
  readonly setName: (name: string) => void;
  readonly id: string;
  readonly onId: (id: string) => void;
  readonly isNew: boolean;
}

function Names({ wrongs, name, setName, id, onId, isNew }: NamesParts) {
  return (
    <>
      <TextField
        label={say('settings.bedName')}
        value={name}
        onChange={setName}
        wrong={wrongs['bed/name']}
        required
      />
      {isNew ? (
        <TextField
          label={say('settings.machineName')}
          hint={say('settings.machineNameHint')}
          value={id}
          onChange={onId}
          wrong={wrongs['bed/id'] ?? wrongs['id']}
          required
        />
      ) : null}
    </>
  );
}

/** Probes that stand in a bed by the description: drawn where they lie. */
export function probesIn({ probes }: SiteDescription, bed: string): NamedPoint[] {
  return probes.flatMap(({ id, placements }) => {
    const last = placements.at(-1);
    if (!last || last.bed !== bed || last.to !== undefined) return [];
    return [{ id, x: last.x ?? 0, y: last.y ?? 0, depth: last.depth ?? 0 }];
  });
}
