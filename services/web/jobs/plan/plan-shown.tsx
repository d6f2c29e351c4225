/** A plan to read, to print and to take along. */
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { crossSectionSvg } from '../../../core/keeping/cross-section.js';
import type { Plan } from '../../api/types/plan.js';
import { Fold } from '../../parts/fold.js';
import { English, Notice } from '../../parts/notice.js';
import { kilograms, litres, number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { Length } from './lengths.js';
import { ProbesOfPlan } from './probes-of-plan.js';
import { SandOfPlan } from './sand-of-plan.js';
import type { Planned } from './use-plan.js';

export function PlanShown({ planned, children }: { planned: Planned; children: ComponentChildren }) {
  const { plan } = planned;
  const heading = useRef<HTMLHeadingElement>(null);
  // A new plan; the same with its probes leaves the reader where he is.
  const shape = JSON.stringify([plan.kind, plan.steps, plan.asked_roots]);
  useEffect(() => heading.current?.focus(), [shape]);
  return (
    <section class="plan" aria-labelledby="plan-answer">
      <h2 id="plan-answer" ref={heading} tabIndex={-1}>
        {say('planning.answer')}
      </h2>
      {children}
      <Many plan={plan} />
      <Shape plan={plan} />
      <Courses plan={plan} />
      <SandOfPlan plan={plan} />
      <Warmth plan={plan} />
      <ProbesOfPlan planned={planned} />
      <Take plan={plan} />
      <Work plan={plan} />
      <RestsOn plan={plan} />
    </section>
  );
}

interface Of {
  readonly plan: Plan;
}

function Many({ plan: { beds, all_beds } }: Of) {
  if (beds === 1) return null;
  const { roots, sand_L, buckets } = all_beds;
  return (
    <Notice kind="plain">
      <p>{say('planning.manyBeds', { beds })}</p>
      <p>
        {say('planning.allBeds', {
          ...{ beds, roots: number(roots), sand: litres(sand_L), buckets: number(buckets) },
        })}
      </p>
    </Notice>
  );
}

function Shape({ plan }: Of) {
  const { kind, steps, volume_L, most_roots, measures } = plan;
  const values = { volume: litres(volume_L.total), most: most_roots };
  return (
    <section class="card" aria-labelledby="plan-shape">
      <h3 id="plan-shape">{say('planning.shape')}</h3>
      <p>{kind === 'box' ? say('planning.boxOf', values) : say('planning.pitOf', values)}</p>
      <ol>
        {steps.map((step, index) => (
          <li key={`${step.length_cm} ${step.width_cm} ${index}`}>
            <Length cm={step.length_cm} measures={measures} words="stepLong" />,{' '}
            <Length cm={step.width_cm} measures={measures} words="stepWide" />,{' '}
            <Length cm={step.height_cm} measures={measures} words="stepHigh" />,{' '}
            {say('planning.stepHolds', { volume: litres(volume_L.steps[index] ?? 0) })}
          </li>
        ))}
      </ol>
      <img class="drawing" alt={say('planning.drawing')} src={drawn(plan)} lang="en" />
    </section>
  );
}

const drawn = (plan: Plan): string =>
  `data:image/svg+xml;charset=utf-8,${encodeURIComponent(crossSectionSvg(plan))}`;

function Courses({ plan: { roots, roots_kg, courses } }: Of) {
  return (
    <section class="card" aria-labelledby="plan-courses">
      <h3 id="plan-courses">{say('planning.rootsTitle')}</h3>
      <p>{say('planning.rootsIn', { roots, mass: mass(roots_kg), courses: courses.length })}</p>
      <ol>
        {courses.map(({ course, step, top_cm, bottom_cm, roots: own }) => (
          <li key={course}>
            {say('planning.course', {
              ...{ roots: own, step, top: number(top_cm), bottom: number(bottom_cm) },
            })}
          </li>
        ))}
      </ol>
      <p>{say('planning.apart')}</p>
    </section>
  );
}

/** To 0.1 kg where a kilogram is much of it. */
const mass = (kg: number): string => kilograms(kg, kg < 10 ? 1 : 0);

function Warmth({ plan: { kind, warmth_above_ground_C: rise, ground_C } }: Of) {
  const values = rise && {
    ...{ low: number(rise.low, 1), mid: number(rise.mid, 1), high: number(rise.high, 1) },
    ground: number(ground_C, Number.isInteger(ground_C) ? 0 : 1),
  };
  return (
    <section class="card" aria-labelledby="plan-warmth">
      <h3 id="plan-warmth">{say('planning.warmthTitle')}</h3>
      <p>
        {values
          ? say(kind === 'box' ? 'planning.warmthBox' : 'planning.warmthPit', values)
          : say('planning.warmthNone')}
      </p>
    </section>
  );
}

function Take({ plan: { take_along } }: Of) {
  return (
    <section class="card" aria-labelledby="plan-take">
      <h3 id="plan-take">{say('planning.takeTitle')}</h3>
      <ul class="take-along" lang="en">
        {take_along.map(({ item, amount, unit }) => (
          <li key={item}>
            <b>
              {number(amount, digits(amount))} {unit}
            </b>{' '}
            {item}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Work({ plan: { work, cautions } }: Of) {
  return (
    <section class="card" aria-labelledby="plan-work">
      <h3 id="plan-work">{say('planning.workTitle')}</h3>
      <Notice kind="caution" title={say('planning.mind')}>
        <ul lang="en">
          {cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </Notice>
      <ol lang="en">
        {work.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </section>
  );
}

function RestsOn({ plan: { assumptions } }: Of) {
  return (
    <Fold title={say('planning.restsOn')}>
      <ul>
        {Object.entries(assumptions).map(([name, { value, unit, meaning, source }]) => (
          <li key={name}>
            <English>
              {meaning}: {number(value, digits(value))} {unit}. <span class="soft">{source}</span>
            </English>
          </li>
        ))}
      </ul>
    </Fold>
  );
}

const digits = (value: number): number => Math.min(3, (String(value).split('.')[1] ?? '').length);
