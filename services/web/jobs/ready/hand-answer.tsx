/** The field that answers one point by hand. */
import type { BadRoot, HandAnswers, ReadinessItem } from '../../api/types/readiness.js';
import { Choice, Group, NumberField, TextField, Tick } from '../../parts/field.js';
import type { Wrongs } from '../../parts/form.js';
import { TimeField } from '../../parts/time-field.js';
import { say } from '../../words/say.js';
import { type TypedReady, YES_OR_NO, type YesOrNo } from './typed-ready.js';

export interface Answering {
  readonly bed: string;
  readonly typed: TypedReady;
  readonly change: (typed: TypedReady) => void;
  /** What was answered before and counts. */
  readonly before: HandAnswers;
  readonly wrongs: Wrongs;
}

export function HandAnswer({ item, ...of }: Answering & { item: ReadinessItem }) {
  const name = YES_OR_NO[item.id as keyof typeof YES_OR_NO] as YesOrNo | undefined;
  // Where a sieving is kept, the grains are judged by it.
  if (name !== undefined && !(item.id === 'sand-grains' && item.limits.length > 0))
    return <YesOrNoAnswer {...of} name={name} />;
  if (item.id === 'curing') return <Curing {...of} />;
  if (item.id === 'roots-sorted') return <Sorted {...of} />;
  if (item.id === 'pit-open')
    return <NumberAnswer {...of} own="pitDays" name="pitOpen_days" label={say('ready.pitDays')} />;
  if (item.id === 'sand-temperature')
    return (
      <NumberAnswer
        {...of}
        own="sandC"
        name="sandTemperature_C"
        label={say('ready.sandC')}
        unit={say('ready.celsius')}
      />
    );
  if (item.id === 'sand-cooled') return <p class="soft">{say('ready.bySandC')}</p>;
  if (item.id === 'next-look') return <NextLook {...of} />;
  return <ToSand bed={of.bed} />;
}

const ToSand = ({ bed }: { bed: string }) => (
  <p>
    <a href={`/jobs/sand?bed=${bed}`}>{say('ready.toSand')}</a>
    <span class="soft"> {say('ready.toSandHint')}</span>
  </p>
);

function YesOrNoAnswer({ typed, change, before, name }: Answering & { name: YesOrNo }) {
  const said = typed.yesOrNo[name] ?? before[name];
  const value = said === undefined ? '' : String(said);
  return (
    <Choice
      label={say('ready.answer')}
      value={value}
      onChange={(text) => {
        const { [name]: _, ...others } = typed.yesOrNo;
        change({ ...typed, yesOrNo: text === '' ? others : { ...others, [name]: text === 'true' } });
      }}
      options={[
        { value: 'true', label: say('ready.yes') },
        { value: 'false', label: say('ready.no') },
        ...(before[name] === undefined ? [{ value: '', label: say('ready.notLooked') }] : []),
      ]}
    />
  );
}

interface NumberParts extends Answering {
  readonly own: 'pitDays' | 'sandC';
  readonly name: 'pitOpen_days' | 'sandTemperature_C';
  readonly label: string;
  readonly unit?: string;
}

function NumberAnswer({ typed, change, before, wrongs, own, name, label, unit }: NumberParts) {
  return (
    <NumberField
      label={label}
      {...(unit === undefined ? {} : { unit })}
      value={typed[own] ?? text(before[name])}
      onChange={(value) => change({ ...typed, [own]: value })}
      wrong={wrongs[`answers/${name}`]}
    />
  );
}

const text = (value: number | undefined): string => (value === undefined ? '' : String(value));

function Curing({ typed, change, before: { curing }, wrongs }: Answering) {
  const all = {
    curingDays: typed.curingDays ?? text(curing?.days),
    curingC: typed.curingC ?? text(curing?.temperature_C),
    curingRH: typed.curingRH ?? text(curing?.humidity_RH),
  };
  const field = (
    name: keyof typeof all,
    label: string,
    pointer: string,
    unit: string | undefined = undefined,
  ) => (
    <NumberField
      label={label}
      {...(unit === undefined ? {} : { unit })}
      value={all[name]}
      // Said together: what stands in the other fields is sent with it.
      onChange={(value) => change({ ...typed, ...all, [name]: value })}
      wrong={wrongs[`answers/curing/${pointer}`]}
    />
  );
  return (
    <>
      {field('curingDays', say('ready.days'), 'days')}
      {field('curingC', say('ready.airC'), 'temperature_C', say('ready.celsius'))}
      {field('curingRH', say('ready.airRH'), 'humidity_RH', say('ready.percent'))}
    </>
  );
}

const BAD_ROOTS: readonly (readonly [BadRoot, 'cut' | 'rotten' | 'weevilTunnelled' | 'frozen'])[] = [
  ['cut', 'cut'],
  ['rotten', 'rotten'],
  ['weevil-tunnelled', 'weevilTunnelled'],
  ['frozen', 'frozen'],
];

function Sorted({ typed, change, before }: Answering) {
  const kinds = typed.sorted ?? before.rootsSorted ?? [];
  return (
    <Group label={say('ready.sorted')}>
      {BAD_ROOTS.map(([kind, word]) => (
        <Tick
          key={kind}
          label={say(`ready.${word}`)}
          checked={kinds.includes(kind)}
          onChange={(checked) =>
            change({
              ...typed,
              sorted: checked ? [...kinds, kind] : kinds.filter((other) => other !== kind),
            })
          }
        />
      ))}
    </Group>
  );
}

function NextLook({ typed, change, wrongs }: Answering) {
  const { nextBy = '', nextAt = '' } = typed;
  return (
    <>
      <TextField
        label={say('ready.nextBy')}
        value={nextBy}
        autocomplete="name"
        onChange={(value) => change({ ...typed, nextBy: value })}
        wrong={wrongs['answers/nextLook/by']}
      />
      <TimeField
        label={say('ready.nextAt')}
        value={nextAt}
        onChange={(value) => change({ ...typed, nextAt: value })}
        wrong={wrongs['answers/nextLook/at']}
      />
    </>
  );
}

/** Probes of an open pit: those that lie in sand already. */
export function InSand({ probes, typed, change, before }: Answering & { probes: readonly string[] }) {
  const inSand = typed.inSand ?? before.probesInSand ?? [];
  return (
    <Group label={say('ready.inSand')} hint={say('ready.inSandHint')}>
      {probes.map((id) => (
        <Tick
          key={id}
          label={id}
          checked={inSand.includes(id)}
          onChange={(checked) =>
            change({ ...typed, inSand: checked ? [...inSand, id] : inSand.filter((other) => other !== id) })
          }
        />
      ))}
    </Group>
  );
}
