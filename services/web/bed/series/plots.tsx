/** The plots that were chosen, one under the other over one time axis, with one crosshair through all. */
import { useMemo } from 'preact/hooks';
import { useSeen } from '../../api/seen.js';
import type { SwingAnswer } from '../../api/types/series.js';
import { English, Notice } from '../../parts/notice.js';
import { Shown } from '../../parts/shown.js';
import { say } from '../../words/say.js';
import { type PlotName, type SeriesModel, useDrawn } from './model.js';
import { PICTURES, pictureOf } from './pictures.js';
import { LEFT_px, Plot, RIGHT_px } from './plot.js';
import type { Span } from './span.js';
import { SwingWords } from './swing-words.js';

/** px. */
const HEIGHTS: Readonly<Record<PlotName, number>> = {
  ...{ temperature: 220, excess: 160, humidity: 150, swing: 180, shade: 150 },
};

export function Plots({ model, whole }: { model: SeriesModel; whole: Span }) {
  useDrawn(model);
  const { plots } = model.choice;
  return (
    <div class="plots">
      {plots.map((plot) =>
        plot === 'swing' ? (
          <SwingPlot key={plot} model={model} whole={whole} />
        ) : plot === 'shade' && model.site.shade.length === 0 ? (
          <p key={plot}>{say('series.noShade')}</p>
        ) : (
          <Plot
            key={plot}
            model={model}
            picture={PICTURES[plot]}
            title={say(`series.title_${plot}`)}
            height_px={HEIGHTS[plot]}
          />
        ),
      )}
      <Crosshair model={model} />
    </div>
  );
}

function Crosshair({ model }: { model: SeriesModel }) {
  const { pointed, view } = model;
  if (pointed === undefined || pointed < view.from || pointed > view.to) return null;
  const share = (pointed - view.from) / (view.to - view.from);
  return (
    <div
      class="crosshair"
      style={{ insetInlineStart: `calc(${LEFT_px}px + ${share} * (100% - ${LEFT_px + RIGHT_px}px))` }}
    />
  );
}

/** Asked for when it is wanted, for the whole season at once. */
function SwingPlot({ model, whole }: { model: SeriesModel; whole: Span }) {
  const query = new URLSearchParams({ from: textOf(whole.from), to: textOf(whole.to) });
  const seen = useSeen<SwingAnswer>(`/api/beds/${model.site.bed}/swing?${query}`);
  return (
    <Shown of={seen}>
      {(swing) =>
        swing.missing ? <Missing why={swing.missing} /> : <SwingSheet model={model} swing={swing} />
      }
    </Shown>
  );
}

const textOf = (time: number): string => new Date(Math.floor(time / 60_000) * 60_000).toISOString();

function Missing({ why }: { why: string }) {
  return (
    <Notice kind="plain">
      <p>
        <English>{why}</English>
      </p>
    </Notice>
  );
}

function SwingSheet({ model, swing }: { model: SeriesModel; swing: SwingAnswer }) {
  const picture = useMemo(() => pictureOf('swing', swing), [swing]);
  return (
    <>
      <Plot model={model} picture={picture} title={say('series.title_swing')} height_px={HEIGHTS.swing} />
      <SwingWords model={model} swing={swing} />
    </>
  );
}
