/** The fields of a look, by what a person does in their order: hands and nose first, then root by root. */
import type { ComponentChildren } from 'preact';
import { Button } from '../../parts/button.js';
import { Choice, NumberField, SelectField, TextField, Tick } from '../../parts/field.js';
import type { Wrongs } from '../../parts/form.js';
import { Notice } from '../../parts/notice.js';
import { PersonField } from '../../parts/person-field.js';
import { TimeField } from '../../parts/time-field.js';
import { say } from '../../words/say.js';
import { COUNTS, NEW_OUT, type TypedLook, type TypedOut } from './look-typed.js';

export interface FieldsParts {
  readonly look: TypedLook;
  readonly onChange: (change: Partial<TypedLook>) => void;
  readonly wrongs: Wrongs;
}

/** What the service has words for; each stands under the same name in `inspect`. */
const WARMTHS = ['cool', 'same', 'warm', 'hot'] as const;
const SMELLS = ['fresh', 'musty', 'rotten'] as const;
const FEELS = ['dry', 'damp', 'wet'] as const;
const REASONS = ['thrown', 'eaten', 'sold', 'seed', 'fed'] as const;
const STATES = ['sound', 'sprouted', 'mouldy', 'bitter', 'rotten', 'weevil', 'gnawed'] as const;

type Word = (typeof WARMTHS | typeof SMELLS | typeof FEELS | typeof REASONS | typeof STATES)[number];

const optionsOf = (words: readonly Word[]) =>
  words.map((value) => ({ value, label: say(`inspect.${value}`) }));
const orNotSaid = (words: readonly Word[]) => [
  { value: '', label: say('inspect.notSaid') },
  ...optionsOf(words),
];

export function Who({ look, onChange, wrongs, names }: FieldsParts & { names: readonly string[] }) {
  return (
    <Part title={say('inspect.who')}>
      <PersonField value={look.by} onChange={(by) => onChange({ by })} wrong={wrongs['by']} names={names} />
      <TimeField
        label={say('inspect.when')}
        value={look.at}
        onChange={(at) => onChange({ at })}
        wrong={wrongs['at']}
      />
      <Choice
        label={say('inspect.opened')}
        value={look.opened}
        onChange={(opened) => onChange({ opened })}
        wrong={wrongs['opened']}
        required
        options={[
          { value: 'yes', label: say('inspect.openedYes') },
          { value: 'no', label: say('inspect.openedNo') },
        ]}
      />
      {look.opened === 'yes' ? (
        <Notice kind="caution">
          <p>{say('inspect.digging')}</p>
        </Notice>
      ) : null}
    </Part>
  );
}

export function Hands({ look, onChange, wrongs }: FieldsParts) {
  return (
    <Part title={say('inspect.hands')}>
      <Choice
        label={say('inspect.warmByHand')}
        value={look.warmByHand}
        onChange={(warmByHand) => onChange({ warmByHand })}
        wrong={wrongs['warmByHand']}
        options={orNotSaid(WARMTHS)}
      />
      <Choice
        label={say('inspect.smell')}
        value={look.smell}
        onChange={(smell) => onChange({ smell })}
        wrong={wrongs['smell']}
        options={orNotSaid(SMELLS)}
      />
      <Choice
        label={say('inspect.sandFeels')}
        value={look.sandFeels}
        onChange={(sandFeels) => onChange({ sandFeels })}
        wrong={wrongs['sandFeels']}
        options={orNotSaid(FEELS)}
      />
    </Part>
  );
}

const COUNT_WORDS = {
  rotten: 'inspect.countRotten',
  weevil: 'inspect.countWeevil',
  rodent: 'inspect.countRodent',
  termite: 'inspect.countTermite',
  sproutsShort: 'inspect.countShort',
  sproutsLong: 'inspect.countLong',
} as const;

export function Roots({ look, onChange, wrongs }: FieldsParts) {
  return (
    <Part title={say('inspect.roots')}>
      <NumberField
        label={say('inspect.looked')}
        hint={say('inspect.lookedHint')}
        value={look.looked}
        onChange={(looked) => onChange({ looked })}
        wrong={wrongs['looked']}
        whole
      />
      <Notice kind="caution">
        <p>{say('inspect.food')}</p>
      </Notice>
      <div class="look-counts">
        {COUNTS.map((name) => (
          <NumberField
            key={name}
            label={say(COUNT_WORDS[name])}
            value={look.counts[name]}
            onChange={(count) => onChange({ counts: { ...look.counts, [name]: count } })}
            wrong={wrongs[name]}
            whole
          />
        ))}
      </div>
    </Part>
  );
}

export function Out({ look: { out, repacked }, onChange, wrongs }: FieldsParts) {
  const change = (at: number, part: Partial<TypedOut>): void =>
    onChange({ out: out.map((entry, index) => (index === at ? { ...entry, ...part } : entry)) });
  return (
    <Part title={say('inspect.out')}>
      {out.map((entry, at) => (
        <div class="card look-out" key={at}>
          <NumberField
            label={say('inspect.outRoots')}
            value={entry.roots}
            onChange={(roots) => change(at, { roots })}
            wrong={wrongs[`out/${at}/roots`]}
            whole
          />
          <SelectField
            label={say('inspect.outReason')}
            value={entry.reason}
            onChange={(reason) => change(at, { reason })}
            wrong={wrongs[`out/${at}/reason`]}
            options={optionsOf(REASONS)}
          />
          <SelectField
            label={say('inspect.outWere')}
            value={entry.were}
            onChange={(were) => change(at, { were })}
            wrong={wrongs[`out/${at}/were`]}
            options={orNotSaid(STATES)}
          />
          <Button kind="quiet" onPress={() => onChange({ out: out.filter((_, index) => index !== at) })}>
            {say('inspect.outDrop')}
          </Button>
        </div>
      ))}
      {wrongs['out'] ? (
        <p class="look-wrong" role="alert">
          {wrongs['out']}
        </p>
      ) : null}
      <Button kind="quiet" onPress={() => onChange({ out: [...out, NEW_OUT] })}>
        {say('inspect.outAdd')}
      </Button>
      <Tick
        label={say('inspect.repacked')}
        checked={repacked}
        onChange={(packed) => onChange({ repacked: packed })}
      />
    </Part>
  );
}

export const Note = ({ look, onChange, wrongs }: FieldsParts) => (
  <TextField
    label={say('inspect.note')}
    rows={3}
    value={look.note}
    onChange={(note) => onChange({ note })}
    wrong={wrongs['note']}
  />
);

export const Part = ({ title, children }: { title: string; children: ComponentChildren }) => (
  <section class="look-part">
    <h2>{title}</h2>
    {children}
  </section>
);
