/** The size of a trial in words. */
import type { TrialSize } from '../api/types/trial.js';
import { number } from '../words/numbers.js';
import { say } from '../words/say.js';

export function Size({ size }: { size: TrialSize }) {
  const { bedsOfEach, bedsInAll, power, design, treatments, difference, sd, alpha } = size;
  const each = number(bedsOfEach);
  return (
    <section class="card" aria-labelledby="trial-size">
      <h2 id="trial-size">{say('trialForms.needed', { each, treatments, all: number(bedsInAll) })}</h2>
      {design === 'blocks' ? <p>{say('trialForms.neededBlocks', { each })}</p> : null}
      <p>
        {say('trialForms.finds', {
          ...{ difference: asTyped(difference), sd: asTyped(sd) },
          ...{ share: number(100 * power, power > 0.99 ? 1 : 0), alpha: asTyped(100 * alpha) },
        })}
      </p>
      {treatments > 2 ? <p>{say('trialForms.midway')}</p> : null}
      <p>{say('trialForms.addLost')}</p>
    </section>
  );
}

/** With as many digits behind the point as it has, three at the most. */
function asTyped(value: number): string {
  const digits = [0, 1, 2].find((many) => Math.abs(value - Number(value.toFixed(many))) < 1e-6) ?? 3;
  return number(value, digits);
}
