import { useId } from 'preact/hooks';
import { SIEVE_OPENINGS_mm } from '../../../core/keeping/sand-sieves.js';
import { Button } from '../../parts/button.js';
import { NumberField } from '../../parts/field.js';
import { say } from '../../words/say.js';
import type { Part } from './sand-fields.js';
import { EMPTY_SIEVE } from './typed-sand.js';

/** A stack that tells what a sand is judged by: stones, the median, dirt. mm. */
const USUAL = ['4.75', '2', '1', '0.5', '0.25', '0.15', '0.075'];

const SUGGESTED: readonly string[] = Object.entries(SIEVE_OPENINGS_mm).flatMap(([number, opening]) => [
  String(opening),
  `no${number}`,
]);

/** A table of sieves with what was left on each. */
export function SieveRows({ typed, change, wrongs }: Part) {
  const list = useId();
  const { sieves } = typed;
  const put = (index: number, part: Partial<(typeof sieves)[number]>): void =>
    change({ ...typed, sieves: sieves.map((row, at) => (at === index ? { ...row, ...part } : row)) });
  const wrongOf = (index: number): string | undefined =>
    Object.entries(wrongs).find(([name]) => name.startsWith(`sieving/sieves/${index}/`))?.[1];
  return (
    <div class="card">
      <h2>{say('sand.sieving')}</h2>
      <p>{say('sand.sievingHint')}</p>
      <datalist id={list}>
        {SUGGESTED.map((text) => (
          <option key={text} value={text} />
        ))}
      </datalist>
      <div class="field">
        <div class="sieves" aria-hidden="true">
          <span>{say('sand.sieve')}</span>
          <span>{say('sand.retained')}</span>
        </div>
        {sieves.map((row, index) => (
          // A row is known by its number alone.
          <SieveRow
            key={String(index)}
            number={index + 1}
            list={list}
            {...row}
            wrong={wrongOf(index)}
            put={(part) => put(index, part)}
          />
        ))}
        {wrongs['sieving/sieves'] ? (
          <p class="wrong" role="alert">
            {wrongs['sieving/sieves']}
          </p>
        ) : null}
      </div>
      <div class="buttons">
        <Button kind="quiet" onPress={() => change({ ...typed, sieves: [...sieves, EMPTY_SIEVE] })}>
          {say('sand.addSieve')}
        </Button>
        <Button
          kind="quiet"
          disabled={sieves.length < 3}
          onPress={() => change({ ...typed, sieves: sieves.slice(0, -1) })}
        >
          {say('sand.dropSieve')}
        </Button>
        {sieves.every(({ sieve, retained }) => sieve + retained === '') ? (
          <Button
            kind="quiet"
            onPress={() => change({ ...typed, sieves: USUAL.map((sieve) => ({ sieve, retained: '' })) })}
          >
            {say('sand.usual')}
          </Button>
        ) : null}
      </div>
      <NumberField
        label={say('sand.pan')}
        unit={say('sand.g')}
        value={typed.pan}
        onChange={(pan) => change({ ...typed, pan })}
        wrong={wrongs['sieving/pan_g']}
        required
      />
      <NumberField
        label={say('sand.total')}
        hint={say('sand.totalHint')}
        unit={say('sand.g')}
        value={typed.total}
        onChange={(total) => change({ ...typed, total })}
        wrong={wrongs['sieving/total_g']}
      />
    </div>
  );
}

interface RowParts {
  readonly number: number;
  readonly list: string;
  readonly sieve: string;
  readonly retained: string;
  readonly wrong: string | undefined;
  readonly put: (part: { sieve?: string; retained?: string }) => void;
}

function SieveRow({ number, list, sieve, retained, wrong, put }: RowParts) {
  const id = useId();
  const about = wrong ? { 'aria-invalid': true as const, 'aria-describedby': id } : {};
  return (
    <>
      <div class="sieves">
        <input
          {...about}
          type="text"
          list={list}
          autocomplete="off"
          aria-label={say('sand.sieveLabel', { number })}
          value={sieve}
          onInput={({ currentTarget }) => put({ sieve: currentTarget.value })}
        />
        <input
          {...about}
          type="text"
          inputMode="decimal"
          autocomplete="off"
          aria-label={say('sand.retainedLabel', { number })}
          value={retained}
          onInput={({ currentTarget }) => put({ retained: currentTarget.value })}
        />
      </div>
      {wrong ? (
        <p class="wrong" id={id} role="alert">
          {wrong}
        </p>
      ) : null}
    </>
  );
}
