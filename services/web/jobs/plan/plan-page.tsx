/** A bed before it is dug: asked for, answered, kept on the device, printed, and handed to the form of a new bed. */

import { useEffect, useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { newId } from '../../api/new-id.js';
import type { Plan, PlanQuestion } from '../../api/types/plan.js';
import { Button, ButtonLink } from '../../parts/button.js';
import { useKept } from '../../parts/kept.js';
import { Notice } from '../../parts/notice.js';
import { shapeInQuery } from '../../parts/steps-in-url.js';
import { Title } from '../../parts/title.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { dropPlan, keepPlan, keptPlan } from './kept-plans.js';
import { KeptPlans } from './kept-plans-shown.js';
import { sidesOf } from './lengths.js';
import { useOwnMeasures } from './own-measures.js';
import { PlanForm } from './plan-form.js';
import { PlanShown } from './plan-shown.js';
import { EMPTY_PLAN, questionOf, type TypedPlan, typedShape } from './typed-plan.js';
import { usePlan } from './use-plan.js';
import './plan.css';

export default function PlanPage() {
  const { query } = useLocation();
  const keptId = query['kept'];
  const [typed, change] = useKept<TypedPlan>('plan-typed', EMPTY_PLAN);
  const [own, changeOwn] = useOwnMeasures();
  const { planned, make, show } = usePlan();
  useEffect(() => {
    if (keptId !== undefined) show(keptPlan(keptId)?.plan);
  }, [keptId]);
  const makeNearest = async (question: PlanQuestion, next: TypedPlan): Promise<void> => {
    change(next);
    await make(question);
  };
  return (
    <div class="planning">
      <div class="asked">
        <Title>{say('planning.title')}</Title>
        <p>{say('planning.intro')}</p>
        <PlanForm
          typed={typed}
          change={change}
          own={own}
          changeOwn={changeOwn}
          onSend={() => make(questionOf(typed, own))}
        />
        <KeptPlans />
      </div>
      {planned ? (
        <PlanShown planned={planned}>
          {planned.plan.fits ? null : (
            <NoFit
              plan={planned.plan}
              onNearest={(steps) => {
                const next: TypedPlan = { ...typed, from: 'space', kind: planned.plan.kind, steps };
                return makeNearest(questionOf(next, own), next);
              }}
            />
          )}
          {planned.placingSince === undefined ? <Deeds plan={planned.plan} keptId={keptId} /> : null}
        </PlanShown>
      ) : null}
    </div>
  );
}

interface NoFitParts {
  readonly plan: Plan & { readonly fits: false };
  readonly onNearest: (steps: TypedPlan['steps']) => Promise<void>;
}

function NoFit({ plan: { asked_roots = 0, most_roots, nearest, kind }, onNearest }: NoFitParts) {
  const steps = nearest.steps.map(sidesOf).join('; ');
  const shape = nearest.steps.map(({ length_cm, width_cm, height_cm }) => ({
    ...{ length: length_cm, width: width_cm, height: height_cm },
  }));
  return (
    <Notice kind="caution" title={say('planning.noFit')}>
      <p>{say('planning.noFitBody', { asked: number(asked_roots), most: number(most_roots) })}</p>
      {nearest.beds === 1 ? (
        <>
          <p>{say('planning.nearestOne', { steps })}</p>
          <Button kind="quiet" onPress={() => onNearest(typedShape({ kind, steps: shape }))}>
            {say('planning.planNearest')}
          </Button>
        </>
      ) : (
        <p>{say('planning.nearestMany', { beds: nearest.beds, steps })}</p>
      )}
    </Notice>
  );
}

/** What is done with a plan that is whole. */
function Deeds({ plan, keptId }: { plan: Plan; keptId: string | undefined }) {
  const { route } = useLocation();
  const [kept, setKept] = useState<boolean>();
  useEffect(() => setKept(undefined), [plan]);
  const steps = plan.steps.map(({ length_cm, width_cm, height_cm }) => ({
    ...{ length: length_cm, width: width_cm, height: height_cm },
  }));
  return (
    <div class="deeds">
      <div class="buttons">
        <ButtonLink href={`/settings/beds/new?${shapeInQuery({ kind: plan.kind, steps })}`}>
          {say('planning.make')}
        </ButtonLink>
        {keptId === undefined ? (
          <Button
            kind="quiet"
            onPress={() => setKept(keepPlan({ ...{ id: newId(), keptAt: Date.now() }, plan }))}
          >
            {say('planning.keep')}
          </Button>
        ) : (
          <Button
            kind="quiet"
            onPress={() => {
              dropPlan(keptId);
              route('/jobs/plan');
            }}
          >
            {say('planning.drop')}
          </Button>
        )}
        <Button kind="quiet" onPress={() => print()}>
          {say('planning.print')}
        </Button>
      </div>
      {kept === undefined ? null : (
        <Notice kind={kept ? 'done' : 'refusal'}>
          <p>{kept ? say('planning.kept') : say('planning.notKept')}</p>
        </Notice>
      )}
    </div>
  );
}
