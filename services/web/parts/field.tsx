/** Fields of a form: a label, a hint, the field, and beside it what is wrong with it. */
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { say } from '../words/say.js';
import { understood } from '../words/zoned.js';
import { useHolding } from './failed-turn.js';

interface About {
  readonly label: string;
  readonly hint?: string | undefined;
  /** What is wrong with what stands in it. */
  readonly wrong?: string | undefined;
  readonly required?: boolean | undefined;
  /** What is made of it, beside it. */
  readonly understood?: string | undefined;
}

interface Frame extends About {
  readonly children: (ids: {
    id: string;
    'aria-describedby': string | undefined;
    'aria-invalid': boolean | undefined;
    'aria-required': boolean | undefined;
  }) => ComponentChildren;
}

/** The frame of a field of any kind: gives the field its ids. */
export function Field({ label, hint, wrong: found, required, understood: read, children }: Frame) {
  const id = useId();
  const [wrong, typed] = useHolding(found);
  const about = [hint && `${id}-hint`, read && `${id}-read`, wrong && `${id}-wrong`]
    .filter(Boolean)
    .join(' ');
  return (
    <div class="field" onInput={typed} onChange={typed}>
      <label for={id}>
        {label}
        {required ? <span class="soft"> ({say('parts.required')})</span> : null}
      </label>
      {hint ? (
        <span class="hint" id={`${id}-hint`}>
          {hint}
        </span>
      ) : null}
      {children({
        id,
        'aria-describedby': about === '' ? undefined : about,
        'aria-invalid': wrong ? true : undefined,
        'aria-required': required ? true : undefined,
      })}
      {read ? (
        <output class="understood" id={`${id}-read`} for={id}>
          {read}
        </output>
      ) : null}
      <Wrong id={`${id}-wrong`} text={wrong} />
    </div>
  );
}

function Wrong({ id, text }: { id: string; text: string | undefined }) {
  return text ? (
    <p class="wrong" id={id} role="alert">
      {text}
    </p>
  ) : null;
}

interface Typed extends About {
  readonly value: string;
  readonly onChange: (value: string) => void;
}

interface TextParts extends Typed {
  readonly type?: 'text' | 'tel' | 'email' | 'url' | 'time' | 'date' | 'datetime-local' | 'password';
  readonly autocomplete?: string;
  /** Suggestions that may be taken. */
  readonly suggestions?: readonly string[];
  readonly rows?: number;
}

export function TextField({
  value,
  onChange,
  type = 'text',
  autocomplete,
  suggestions,
  rows,
  ...about
}: TextParts) {
  const list = useId();
  return (
    <Field {...about} understood={understood(type, value)}>
      {(ids) =>
        rows === undefined ? (
          <>
            <input
              {...ids}
              // The types of the input's attributes tell its kinds apart; here it is any of them.
              type={type as 'text'}
              value={value}
              autocomplete={autocomplete ?? 'off'}
              {...(suggestions ? { list } : {})}
              onInput={({ currentTarget }) => onChange(currentTarget.value)}
            />
            {suggestions ? (
              <datalist id={list}>
                {suggestions.map((text) => (
                  <option key={text} value={text} />
                ))}
              </datalist>
            ) : null}
          </>
        ) : (
          <textarea
            {...ids}
            rows={rows}
            value={value}
            onInput={({ currentTarget }) => onChange(currentTarget.value)}
          />
        )
      }
    </Field>
  );
}

/** A number as it is typed: text until it is read with `readNumber`. */
export function NumberField({
  value,
  onChange,
  unit,
  whole,
  ...about
}: Typed & { unit?: string; whole?: boolean }) {
  return (
    <Field {...about}>
      {(ids) => (
        <span class="with-unit">
          <input
            {...ids}
            type="text"
            inputMode={whole ? 'numeric' : 'decimal'}
            autocomplete="off"
            value={value}
            onInput={({ currentTarget }) => onChange(currentTarget.value)}
          />
          {unit ? <span>{unit}</span> : null}
        </span>
      )}
    </Field>
  );
}

interface Option {
  readonly value: string;
  readonly label: string;
  /** Heading that it stands under; options of one stand together. */
  readonly group?: string;
}

export function SelectField({ value, onChange, options, ...about }: Typed & { options: readonly Option[] }) {
  return (
    <Field {...about}>
      {(ids) => (
        <select {...ids} value={value} onChange={({ currentTarget }) => onChange(currentTarget.value)}>
          {grouped(options).map(([group, together]) =>
            group === undefined ? (
              optionsOf(together)
            ) : (
              <optgroup key={group} label={group}>
                {optionsOf(together)}
              </optgroup>
            ),
          )}
        </select>
      )}
    </Field>
  );
}

const optionsOf = (options: readonly Option[]) =>
  options.map(({ value, label }) => (
    <option key={value} value={value}>
      {label}
    </option>
  ));

function grouped(options: readonly Option[]): [string | undefined, Option[]][] {
  const groups = new Map<string | undefined, Option[]>();
  for (const option of options) groups.set(option.group, [...(groups.get(option.group) ?? []), option]);
  return [...groups];
}

interface GroupParts extends About {
  readonly children: ComponentChildren;
}

/** Fields that belong together under one question. */
export function Group({ label, hint, wrong: found, required, children }: GroupParts) {
  const id = useId();
  const [wrong, typed] = useHolding(found);
  return (
    <fieldset
      class="field"
      onInput={typed}
      onChange={typed}
      aria-describedby={hint ? `${id}-hint` : undefined}
      data-wrong={wrong ? true : undefined}
    >
      <legend>
        {label}
        {required ? <span class="soft"> ({say('parts.required')})</span> : null}
      </legend>
      {hint ? (
        <span class="hint" id={`${id}-hint`}>
          {hint}
        </span>
      ) : null}
      {children}
      <Wrong id={`${id}-wrong`} text={wrong} />
    </fieldset>
  );
}

/** One of a few answers, all in sight. */
export function Choice({ value, onChange, options, ...about }: Typed & { options: readonly Option[] }) {
  const name = useId();
  return (
    <Group {...about}>
      {options.map((option) => (
        <label class="tick" key={option.value}>
          <input
            type="radio"
            name={name}
            value={option.value}
            checked={value === option.value}
            onChange={() => onChange(option.value)}
          />
          {option.label}
        </label>
      ))}
    </Group>
  );
}

export function Tick(parts: { label: string; checked: boolean; onChange: (checked: boolean) => void }) {
  return (
    <label class="tick">
      <input
        type="checkbox"
        checked={parts.checked}
        onChange={({ currentTarget }) => parts.onChange(currentTarget.checked)}
      />
      {parts.label}
    </label>
  );
}
