import { Button } from '../../parts/button.js';
import { Choice, NumberField } from '../../parts/field.js';
import { say } from '../../words/say.js';
import type { Part } from './sand-fields.js';
import type { TypedSand } from './typed-sand.js';

/** A sample weighed moist and dried, as often as it was heated. */
export function WeighingFields({ typed, change, wrongs }: Part) {
  const { dried } = typed;
  const gram = (name: 'wet' | 'container' | 'resolution', pointer: string) => (
    <NumberField
      label={say(`sand.${name}`)}
      unit={say('sand.g')}
      value={typed[name]}
      onChange={(text) => change({ ...typed, [name]: text })}
      wrong={wrongs[`weighing/${pointer}`]}
      required
    />
  );
  return (
    <div class="card">
      <h2>{say('sand.weighing')}</h2>
      <p>{say('sand.weighingHint')}</p>
      {gram('wet', 'wet_g')}
      <p>{say('sand.dryHint')}</p>
      {dried.map((text, index) => (
        <NumberField
          key={String(index)}
          label={say('sand.dry', { number: index + 1 })}
          unit={say('sand.g')}
          value={text}
          onChange={(next) =>
            change({ ...typed, dried: dried.map((own, at) => (at === index ? next : own)) })
          }
          wrong={wrongs[`weighing/dried/${index}`]}
          required={index === 0}
        />
      ))}
      <div class="buttons">
        <Button kind="quiet" onPress={() => change({ ...typed, dried: [...dried, ''] })}>
          {say('sand.addDry')}
        </Button>
        <Button
          kind="quiet"
          disabled={dried.length < 2}
          onPress={() => change({ ...typed, dried: dried.slice(0, -1) })}
        >
          {say('sand.dropDry')}
        </Button>
      </div>
      {gram('container', 'container_g')}
      {gram('resolution', 'resolution_g')}
      <Choice
        label={say('sand.way')}
        value={typed.way}
        onChange={(way) => change({ ...typed, way: way as TypedSand['way'] })}
        options={[
          { value: 'pan', label: say('sand.pan_way') },
          { value: 'oven', label: say('sand.oven_way') },
        ]}
      />
    </div>
  );
}
