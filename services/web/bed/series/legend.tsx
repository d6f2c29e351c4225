/** Which probe is in front, and how each line looks. */
import { Tick } from '../../parts/field.js';
import { centimetres } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { lookOf } from './colours.js';
import { PLOTS, type SeriesModel, useDrawn } from './model.js';

interface LegendParts {
  readonly model: SeriesModel;
  readonly depths: ReadonlyMap<string, number>;
}

export function Legend({ model, depths }: LegendParts) {
  useDrawn(model);
  const { front, others, plots } = model.choice;
  return (
    <>
      <fieldset class="series-legend">
        <legend>{say('series.front')}</legend>
        {model.site.probes.map((probe, at) => (
          <button
            key={probe}
            type="button"
            class="series-probe"
            aria-pressed={probe === front}
            onClick={() => model.choose({ front: probe })}
          >
            <Sample at={at} isFront={probe === front} />
            {say('series.probeAt', { probe, depth: centimetres(depths.get(probe) ?? 0) })}
          </button>
        ))}
      </fieldset>
      <div class="series-ticks">
        <Tick
          label={say('series.others')}
          checked={others}
          onChange={(checked) => model.choose({ others: checked })}
        />
      </div>
      <fieldset class="series-ticks">
        <legend>{say('series.plots')}</legend>
        {PLOTS.map((plot) => (
          <Tick
            key={plot}
            label={say(`series.tick_${plot}`)}
            checked={plots.includes(plot)}
            onChange={(checked) =>
              model.choose({ plots: PLOTS.filter((one) => (one === plot ? checked : plots.includes(one))) })
            }
          />
        ))}
      </fieldset>
    </>
  );
}

/** A piece of the line as it is drawn. */
function Sample({ at, isFront }: { at: number; isFront: boolean }) {
  const { colour, stroke } = lookOf(at);
  return (
    <svg viewBox="0 0 36 12" width="36" height="12" aria-hidden="true">
      <line
        x1="1"
        x2="35"
        y1="6"
        y2="6"
        stroke={`var(${colour})`}
        stroke-width={isFront ? 3 : 1.5}
        stroke-dasharray={isFront ? undefined : stroke.join(' ')}
      />
    </svg>
  );
}
