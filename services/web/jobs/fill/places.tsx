/** Where each probe came to lie: chosen, then typed, or tapped on the drawing. */
import { useState } from 'preact/hooks';
import { type Block, holdsPoint } from '../../../core/model/bed.js';
import { Choice, Group, NumberField, Tick } from '../../parts/field.js';
import type { Wrongs } from '../../parts/form.js';
import { typedNumber } from '../../parts/typed-number.js';
import { say } from '../../words/say.js';
import { BedDrawing } from './bed-drawing.js';
import type { PlaceTyped } from './draft.js';
import type { Marked } from './drawn-probe.js';

interface PlacesParts {
  readonly blocks: readonly Block[];
  /** Probes that may be buried, the bed's own first. */
  readonly probes: readonly string[];
  readonly places: readonly PlaceTyped[];
  readonly onChange: (places: readonly PlaceTyped[]) => void;
  readonly wrongs: Wrongs;
}

export function Places({ blocks, probes, places, onChange, wrongs }: PlacesParts) {
  const [asked, choose] = useState<string>();
  const chosen = places.some(({ probe }) => probe === asked) ? asked : places[0]?.probe;
  const change = (probe: string, part: Partial<PlaceTyped>): void =>
    onChange(places.map((place) => (place.probe === probe ? { ...place, ...part } : place)));
  const tick = (probe: string, isIn: boolean): void => {
    const others = places.filter((place) => place.probe !== probe);
    onChange(isIn ? [...others, { probe, x: '', y: '', depth: '' }] : others);
    if (isIn) choose(probe);
  };
  return (
    <>
      <Group label={say('fill.whichProbes')} hint={say('fill.whichProbesHint')}>
        {probes.length === 0 ? <p>{say('fill.noProbes')}</p> : null}
        {probes.map((probe) => (
          <Tick
            key={probe}
            label={probe}
            checked={places.some((place) => place.probe === probe)}
            onChange={(isIn) => tick(probe, isIn)}
          />
        ))}
      </Group>
      {places.length > 0 ? (
        <>
          <Choice
            label={say('fill.tapFor')}
            hint={say('fill.tapHint')}
            value={chosen ?? ''}
            onChange={choose}
            options={places.map(({ probe }) => ({ value: probe, label: probe }))}
          />
          <BedDrawing
            blocks={blocks}
            chosen={chosen}
            probes={places.map((place) => markedOf(place, blocks))}
            onTap={(place) => {
              if (chosen !== undefined) change(chosen, textsOf(place));
            }}
          />
        </>
      ) : null}
      {places.map((place, index) => (
        <PlaceFields
          key={place.probe}
          {...{ place, index, wrongs }}
          isOutside={markedOf(place, blocks).isOutside}
          onChange={(part) => change(place.probe, part)}
        />
      ))}
    </>
  );
}

interface FieldsParts {
  readonly place: PlaceTyped;
  readonly index: number;
  readonly isOutside: boolean;
  readonly onChange: (part: Partial<PlaceTyped>) => void;
  readonly wrongs: Wrongs;
}

function PlaceFields({ place, index, isOutside, onChange, wrongs }: FieldsParts) {
  const { probe } = place;
  const field = (key: 'x' | 'y' | 'depth', label: string) => (
    <NumberField
      label={label}
      unit={say('fill.cm')}
      required
      value={place[key]}
      onChange={(text) => onChange({ [key]: text })}
      wrong={wrongs[`probes/${index}/${key}`] ?? (key === 'depth' ? wrongs[`probes/${index}`] : undefined)}
    />
  );
  return (
    <fieldset class="course">
      <legend>{say('fill.placeOf', { probe })}</legend>
      {field('x', say('fill.along'))}
      {field('y', say('fill.across'))}
      {field('depth', say('fill.depth'))}
      {isOutside && !wrongs[`probes/${index}/depth`] ? (
        <p role="status">{say('fill.outside', { probe })}</p>
      ) : null}
    </fieldset>
  );
}

const textsOf = (place: object): Partial<PlaceTyped> =>
  Object.fromEntries(Object.entries(place).map(([key, value]) => [key, String(value)]));

function markedOf({ probe, x, y, depth }: PlaceTyped, blocks: readonly Block[]): Marked {
  const [across, along, down] = [x, y, depth].map((text) => typedNumber(text) ?? Number.NaN) as [
    number,
    number,
    number,
  ];
  const isTyped = [across, along, down].every(Number.isFinite);
  return {
    ...{ id: probe, x: across, y: along, depth: down },
    isOutside: isTyped && !holdsPoint(blocks, across, along, down),
  };
}
