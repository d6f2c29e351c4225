/** What to do, step by step; what was ticked stays on this device. */

import type { AlarmStory } from '../api/types/alarm-story.js';
import { useKept } from '../parts/kept.js';
import { Notice } from '../parts/notice.js';
import { Told } from '../parts/told.js';
import { say } from '../words/say.js';

export function Todo({ story: { id, steps, cautions, where } }: { story: AlarmStory }) {
  const [ticked, setTicked] = useKept<readonly number[]>(`done.${id}`, []);
  const place = where === null || where.language === 'en' ? undefined : where.text;
  const tick = (step: number, done: boolean): void =>
    setTicked(done ? [...ticked, step] : ticked.filter((one) => one !== step));
  const beside = new Set(steps.list.flatMap((step) => step.cautions));
  const others = cautions.filter((caution) => !beside.has(caution));
  return (
    <section aria-labelledby="todo">
      <h2 id="todo">{say('alarm.todo')}</h2>
      <p class="soft">{say('alarm.todoKept')}</p>
      <ol class="alarm-todo">
        {steps.list.map((step, at) => (
          <li key={step.text}>
            <label class="tick">
              <input
                type="checkbox"
                checked={ticked.includes(at)}
                onChange={({ currentTarget }) => tick(at, currentTarget.checked)}
              />
              <span>
                {`${at + 1}. `}
                <Told place={place}>{step.text}</Told>
              </span>
            </label>
            {step.cautions.map((caution) => (
              <Caution key={caution} text={caution} />
            ))}
          </li>
        ))}
      </ol>
      {others.map((caution) => (
        <Caution key={caution} text={caution} />
      ))}
    </section>
  );
}

const Caution = ({ text }: { text: string }) => (
  <Notice kind="caution">
    <p>
      <Told>{text}</Told>
    </p>
  </Notice>
);
