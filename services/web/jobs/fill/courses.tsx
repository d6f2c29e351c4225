/** Roots by course, the lowest first, as they go into the bed. */
import { Button } from '../../parts/button.js';
import { NumberField } from '../../parts/field.js';
import type { Wrongs } from '../../parts/form.js';
import { typedNumber } from '../../parts/typed-number.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { type CourseTyped, EMPTY_COURSE } from './draft.js';

interface CoursesParts {
  readonly courses: readonly CourseTyped[];
  readonly onChange: (courses: readonly CourseTyped[]) => void;
  readonly wrongs: Wrongs;
}

export function Courses({ courses, onChange, wrongs }: CoursesParts) {
  const change = (index: number, part: Partial<CourseTyped>): void =>
    onChange(courses.map((course, at) => (at === index ? { ...course, ...part } : course)));
  return (
    <>
      {courses.map((course, index) => (
        <fieldset key={`course ${index + 1}`} class="course">
          <legend>{index === 0 ? say('fill.lowestCourse') : say('fill.course', { count: index + 1 })}</legend>
          <NumberField
            label={say('fill.roots')}
            whole
            required
            value={course.roots}
            onChange={(roots) => change(index, { roots })}
            wrong={wrongs[`courses/${index}/roots`]}
          />
          <NumberField
            label={say('fill.mass')}
            unit={say('fill.kg')}
            value={course.mass}
            onChange={(mass) => change(index, { mass })}
            wrong={wrongs[`courses/${index}/mass_kg`]}
          />
        </fieldset>
      ))}
      <div class="buttons">
        <Button kind="quiet" onPress={() => onChange([...courses, EMPTY_COURSE])}>
          {say('fill.addCourse')}
        </Button>
        {courses.length > 1 ? (
          <Button kind="quiet" onPress={() => onChange(courses.slice(0, -1))}>
            {say('fill.dropCourse', { count: courses.length })}
          </Button>
        ) : null}
      </div>
      <p role="status">{together(courses)}</p>
    </>
  );
}

/** What stands there as numbers so far. */
function together(courses: readonly CourseTyped[]): string {
  const sum = (texts: readonly string[]): number =>
    texts.reduce((total, text) => total + (typedNumber(text) || 0), 0);
  const kg = sum(courses.map(({ mass }) => mass));
  const values = { roots: number(sum(courses.map(({ roots }) => roots))), kg: number(kg, 1) };
  return kg > 0 ? say('fill.togetherWeighed', values) : say('fill.together', values);
}
