/** What shapes, colours and shadings mean, in words. */
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { EXCESS_BORDERS_C, EXCESS_STEPS, type ExcessStep } from './excess.js';
import { Mark } from './marks-drawn.js';

function bordersOf(step: ExcessStep): string {
  const index = EXCESS_STEPS.indexOf(step);
  const [from, to] = [EXCESS_BORDERS_C[index - 1], EXCESS_BORDERS_C[index]].map((border) =>
    border === undefined ? undefined : `${border > 0 ? '+' : ''}${number(border, 1)}`,
  );
  if (from === undefined) return say('bed.below', { to: to ?? '' });
  return to === undefined ? say('bed.above_C', { from }) : say('bed.between', { from, to });
}

export function ExcessLegend() {
  return (
    <div class="legend">
      <h3>{say('bed.legend')}</h3>
      <p class="soft">{say('bed.legendAbout')}</p>
      <ul class="legend-marks">
        {EXCESS_STEPS.map((step) => (
          <li key={step} class="legend-item">
            <svg width="28" height="28" viewBox="-14 -14 28 28" aria-hidden="true">
              <Mark shown={step} />
            </svg>
            <span>
              {say(`bed.${step}`)}, {bordersOf(step)}
            </span>
          </li>
        ))}
        <li class="legend-item">
          <svg width="28" height="28" viewBox="-14 -14 28 28" aria-hidden="true">
            <Mark shown="unknown" />
          </svg>
          <span>{say('bed.unknown')}</span>
        </li>
        <li class="legend-item">
          <svg width="28" height="28" viewBox="-14 -14 28 28" aria-hidden="true">
            <g class="off-cut">
              <Mark shown="even" />
            </g>
          </svg>
          <span>{say('bed.legendOff')}</span>
        </li>
      </ul>
    </div>
  );
}

export function SightLegend() {
  return (
    <ul class="legend-sight">
      {(['seen', 'perhaps', 'blind'] as const).map((sight) => (
        <li key={sight} class="legend-item">
          <svg width="36" height="22" aria-hidden="true">
            <rect class="legend-cell" width="36" height="22" fill={`url(#cut-${sight})`} />
          </svg>
          <span>{say(`bed.${sight}`)}</span>
        </li>
      ))}
    </ul>
  );
}
