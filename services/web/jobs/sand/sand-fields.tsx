/** What was measured of a sand, in the order of the work. */
import type { BedAtWork } from '../../api/types/work.js';
import { Choice, NumberField, SelectField, TextField, Tick } from '../../parts/field.js';
import type { Wrongs } from '../../parts/form.js';
import { Notice } from '../../parts/notice.js';
import { say } from '../../words/say.js';
import { SieveRows } from './sieve-rows.js';
import type { TypedSand } from './typed-sand.js';
import { WeighingFields } from './weighing-fields.js';

export interface Part {
  readonly typed: TypedSand;
  readonly change: (typed: TypedSand) => void;
  readonly wrongs: Wrongs;
}

export function SandFields(part: Part) {
  const { typed, change, wrongs } = part;
  const tick = (name: 'sieving' | 'weighing' | 'warmth') => (checked: boolean) =>
    change({ ...typed, [name]: checked });
  return (
    <>
      {wrongs['measured'] ? (
        <Notice kind="refusal">
          <p>{wrongs['measured']}</p>
        </Notice>
      ) : null}
      <Tick label={say('sand.doSieving')} checked={typed.sieving} onChange={tick('sieving')} />
      {typed.sieving ? <SieveRows {...part} /> : null}
      <Tick label={say('sand.doWeighing')} checked={typed.weighing} onChange={tick('weighing')} />
      {typed.weighing ? <WeighingFields {...part} /> : null}
      <Tick label={say('sand.doWarmth')} checked={typed.warmth} onChange={tick('warmth')} />
      {typed.warmth ? <WarmthFields {...part} /> : null}
    </>
  );
}

function WarmthFields({ typed, change, wrongs }: Part) {
  const sides = typed.shape === 'layer' ? (['thickness'] as const) : (['length', 'width', 'height'] as const);
  return (
    <div class="card">
      <h2>{say('sand.warmth')}</h2>
      <NumberField
        label={say('sand.sandC')}
        unit={say('sand.celsius')}
        value={typed.sand_C}
        onChange={(sand_C) => change({ ...typed, sand_C })}
        wrong={wrongs['warmth/sand_C']}
        required
      />
      <NumberField
        label={say('sand.shadeC')}
        unit={say('sand.celsius')}
        value={typed.shade_C}
        onChange={(shade_C) => change({ ...typed, shade_C })}
        wrong={wrongs['warmth/shadeMean_C']}
        required
      />
      <Choice
        label={say('sand.shape')}
        value={typed.shape}
        onChange={(shape) => change({ ...typed, shape: shape as TypedSand['shape'] })}
        options={[
          { value: 'layer', label: say('sand.layer') },
          { value: 'block', label: say('sand.block') },
        ]}
      />
      {sides.map((side) => (
        <NumberField
          key={side}
          label={side === 'thickness' ? say('sand.thickness') : say(`planning.${side}`)}
          unit={say('sand.cm')}
          value={typed[side]}
          onChange={(text) => change({ ...typed, [side]: text })}
          wrong={wrongs[`warmth/body/${side}_cm`]}
          required
        />
      ))}
    </div>
  );
}

interface KeepParts extends Part {
  readonly beds: readonly BedAtWork[];
  readonly by: string;
  readonly changeBy: (by: string) => void;
}

/** For which bed it is kept, and who measured it. */
export function KeepFields({ typed, change, wrongs, beds, by, changeBy }: KeepParts) {
  return (
    <>
      <SelectField
        label={say('sand.keepFor')}
        value={typed.bed}
        onChange={(bed) => change({ ...typed, bed })}
        options={[
          { value: '', label: say('sand.keepNot') },
          ...beds.map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
      {typed.bed === '' ? null : (
        <>
          <TextField
            label={say('sand.by')}
            value={by}
            onChange={changeBy}
            autocomplete="name"
            wrong={wrongs['by']}
            required
          />
          <TextField
            label={say('sand.note')}
            value={typed.note}
            onChange={(note) => change({ ...typed, note })}
            wrong={wrongs['note']}
          />
        </>
      )}
    </>
  );
}
