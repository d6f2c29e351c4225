/** Buttons for the span that is shown: all that fingers, wheel and keys do. */
import { Button } from '../../parts/button.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import { keyOn } from './gestures.js';
import type { SeriesModel } from './model.js';
import { useDrawn } from './model.js';
import { type Length, lengthNamed, ofLength } from './span.js';

const LENGTHS: readonly Length[] = ['season', 'month', 'week', 'day'];

export function Controls({ model }: { model: SeriesModel }) {
  useDrawn(model);
  const { view, site } = model;
  const named = lengthNamed(view, site.whole);
  const isWhole = named === 'season';
  return (
    <div class="series-controls">
      <fieldset class="buttons">
        <legend class="aloud">{say('series.spans')}</legend>
        {LENGTHS.map((length) => (
          <Button
            key={length}
            kind="quiet"
            pressed={named === length}
            onPress={() => model.show(ofLength(length, view, site.whole))}
          >
            {say(`series.span_${length}`)}
          </Button>
        ))}
      </fieldset>
      <fieldset class="buttons">
        <legend class="aloud">{say('series.moves')}</legend>
        <Button
          kind="quiet"
          disabled={view.from <= site.whole.from}
          onPress={() => press(model, 'ArrowLeft')}
        >
          {say('series.earlier')}
        </Button>
        <Button kind="quiet" disabled={view.to >= site.whole.to} onPress={() => press(model, 'ArrowRight')}>
          {say('series.later')}
        </Button>
        <Button kind="quiet" label={say('series.closer')} onPress={() => press(model, '+')}>
          +
        </Button>
        <Button kind="quiet" label={say('series.wider')} disabled={isWhole} onPress={() => press(model, '-')}>
          −
        </Button>
        <Button kind="quiet" disabled={!model.canGoBack} onPress={() => model.back()}>
          {say('series.back')}
        </Button>
      </fieldset>
      <p class="series-span">
        {say('series.shown', { from: dayAndTime(view.from), to: dayAndTime(view.to) })}
      </p>
    </div>
  );
}

const press = (model: SeriesModel, key: string): void => void keyOn(model, key);
