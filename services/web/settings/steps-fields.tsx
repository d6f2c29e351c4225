/** The steps of a bed from the top down, typed in centimetres, and drawn as they are typed. */
import type { DescribedStep } from '../api/types/site.js';
import { Button } from '../parts/button.js';
import { NumberField } from '../parts/field.js';
import type { Wrongs } from '../parts/form.js';
import { typedNumber } from '../parts/typed-number.js';
import { say } from '../words/say.js';

export const SIDES = ['length', 'width', 'height'] as const;

export interface TypedSides {
  readonly key: string;
  readonly length: string;
  readonly width: string;
  readonly height: string;
  /** Its own corner, where the description gives it one. */
  readonly corner: Pick<DescribedStep, 'x' | 'y'>;
}

let count = 0;

export const typedSides = (step?: DescribedStep): TypedSides => ({
  key: `sides-${++count}`,
  ...{ length: textOf(step?.length), width: textOf(step?.width), height: textOf(step?.height) },
  corner: {
    ...(step?.x === undefined ? {} : { x: step.x }),
    ...(step?.y === undefined ? {} : { y: step.y }),
  },
});

const textOf = (value: number | undefined): string => (value === undefined ? '' : String(value));

/** NaN where a side is no number: the service says what it expected. */
export const stepOf = ({ length, width, height, corner }: TypedSides): DescribedStep => ({
  ...{ length: sideOf(length), width: sideOf(width), height: sideOf(height) },
  ...corner,
});

const sideOf = (text: string): number => typedNumber(text) ?? Number.NaN;

interface StepsParts {
  readonly steps: readonly TypedSides[];
  readonly onChange: (steps: readonly TypedSides[]) => void;
  readonly isBox: boolean;
  readonly wrongs: Wrongs;
}

/** Steps of one bed [core/model/site, SITE_LIMITS]. */
const MOST_STEPS = 10;

export function StepsFields({ steps, onChange, isBox, wrongs }: StepsParts) {
  const change = (key: string, side: (typeof SIDES)[number], text: string): void =>
    onChange(steps.map((step) => (step.key === key ? { ...step, [side]: text } : step)));
  return (
    <>
      {steps.map((step, index) => (
        <fieldset class="part" key={step.key}>
          <legend>{isBox ? say('settings.boxSides') : say('settings.step', { number: index + 1 })}</legend>
          <div class="side-by-side">
            {SIDES.map((side) => (
              <NumberField
                key={side}
                label={say(`settings.${side}`)}
                value={step[side]}
                onChange={(text) => change(step.key, side, text)}
                wrong={wrongs[`bed/steps/${index}/${side}`]}
                unit="cm"
              />
            ))}
          </div>
          {steps.length > 1 ? (
            <Button kind="quiet" onPress={() => onChange(steps.filter(({ key }) => key !== step.key))}>
              {say('settings.stepOut', { number: index + 1 })}
            </Button>
          ) : null}
        </fieldset>
      ))}
      {isBox || steps.length >= MOST_STEPS ? null : (
        <div class="buttons">
          <Button kind="quiet" onPress={() => onChange([...steps, typedSides()])}>
            {say('settings.stepAdd')}
          </Button>
        </div>
      )}
    </>
  );
}
