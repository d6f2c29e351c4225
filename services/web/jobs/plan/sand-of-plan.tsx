import type { Plan } from '../../api/types/plan.js';
import { kilograms, litres, number } from '../../words/numbers.js';
import { say } from '../../words/say.js';

/** Sand, what is dug, and the roof. */
export function SandOfPlan({ plan }: { plan: Plan }) {
  const { sand_L, sand_kg, buckets, bucket_L, bucket_kg, roof } = plan;
  return (
    <section class="card" aria-labelledby="plan-sand">
      <h3 id="plan-sand">{say('planning.sandTitle')}</h3>
      <dl>
        <dt>{say('planning.sand')}</dt>
        <dd>
          {say('planning.sandAmount', {
            ...{ volume: litres(sand_L), buckets, bucket: litres(bucket_L, tenths(bucket_L)) },
            ...{ mass: kilograms(sand_kg), each: kilograms(bucket_kg) },
          })}
        </dd>
        <dt>{say('planning.digging')}</dt>
        <dd>{digging(plan)}</dd>
        {roof ? (
          <>
            <dt>{say('planning.roof')}</dt>
            <dd>
              {say('planning.roofAmount', {
                ...{ length: number(roof.length_cm), width: number(roof.width_cm) },
                ...{ ridge: number(roof.ridge_cm), thatch: number(roof.thatch_m2, 1) },
              })}
            </dd>
          </>
        ) : null}
      </dl>
    </section>
  );
}

const tenths = (value: number): number => (Number.isInteger(value) ? 0 : 1);

const digging = ({ kind, digging_L, dug_out_L: { low, high } }: Plan): string =>
  kind === 'box'
    ? say('planning.noDigging')
    : say('planning.diggingAmount', { volume: litres(digging_L), low: number(low), high: number(high) });
