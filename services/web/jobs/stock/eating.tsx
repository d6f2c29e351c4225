/** Who eats from a bed, and over how many months the rest is to be sold: asked once on this device. */
import { Choice, NumberField } from '../../parts/field.js';
import type { Wrongs } from '../../parts/form.js';
import { keptNow } from '../../parts/kept.js';
import type { Typed } from '../../parts/typed.js';
import { say } from '../../words/say.js';

export interface EatingTyped {
  readonly persons: string;
  readonly each: string;
  readonly per: 'roots' | 'kg';
  readonly months: string;
}

export const EATING_KEPT = 'eating';
export const NOBODY: EatingTyped = { persons: '', each: '', per: 'roots', months: '' };
export const eatingKept = (): EatingTyped => ({ ...NOBODY, ...keptNow(EATING_KEPT, NOBODY) });

const PERSONS = { least: 1, most: 100_000, whole: true };
const ROOTS = { least: 0.01, most: 1000 };
const MASS_kg = { least: 0.001, most: 1000 };
export const MONTHS = { least: 1, most: 12, whole: true };

/** Puts the question into an address. What is wrong is noted in `typed`. */
export function askEating(typed: Typed, { persons, each, per }: EatingTyped, query: URLSearchParams): void {
  if (persons.trim() === '' && each.trim() === '') return;
  const key = per === 'roots' ? 'rootsPerPersonWeek' : 'kgPerPersonWeek';
  query.set('persons', String(typed.number('persons', persons, PERSONS)));
  query.set(key, String(typed.number('each', each, per === 'roots' ? ROOTS : MASS_kg)));
}

interface EatingParts {
  readonly value: EatingTyped;
  readonly onChange: (value: EatingTyped) => void;
  readonly wrongs: Wrongs;
}

export function EatingFields({ value, onChange, wrongs }: EatingParts) {
  const change = (part: Partial<EatingTyped>): void => onChange({ ...value, ...part });
  return (
    <div class="abreast">
      <NumberField
        label={say('stock.persons')}
        whole
        value={value.persons}
        onChange={(persons) => change({ persons })}
        wrong={wrongs['persons']}
      />
      <NumberField
        label={say('stock.each')}
        unit={say(value.per === 'roots' ? 'stock.unitRoots' : 'stock.unitKg')}
        value={value.each}
        onChange={(each) => change({ each })}
        wrong={wrongs['each'] ?? wrongs['rootsPerPersonWeek'] ?? wrongs['kgPerPersonWeek']}
      />
      <Choice
        label={say('stock.countedIn')}
        value={value.per}
        onChange={(per) => change({ per: per === 'kg' ? 'kg' : 'roots' })}
        options={[
          { value: 'roots', label: say('stock.unitRoots') },
          { value: 'kg', label: say('stock.unitKg') },
        ]}
      />
    </div>
  );
}
