/** One plot: its axes by uPlot, what is in it by its picture. */
import { useEffect, useRef } from 'preact/hooks';
import UPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import { number } from '../../words/numbers.js';
import { siteDate, tickOf } from './axis-times.js';
import { palette } from './colours.js';
import type { SeriesModel } from './model.js';
import type { Sheet } from './pen.js';
import type { Picture } from './pictures.js';

/** Room beside what is drawn, the same in all plots, so that one crosshair goes through them. */
export const LEFT_px = 46;
export const RIGHT_px = 10;

interface PlotParts {
  readonly model: SeriesModel;
  readonly picture: Picture;
  readonly title: string;
  readonly height_px: number;
  /** Changes when the picture is another. */
  readonly version?: unknown;
}

export function Plot({ model, picture, title, height_px, version }: PlotParts) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = place.current;
    return element ? drawIn(element, model, picture, height_px) : undefined;
  }, [model, picture, height_px, version]);
  return (
    <figure class="plot">
      <figcaption>{title}</figcaption>
      <div ref={place} class="plot-sheet" style={{ height: `${height_px}px` }} aria-hidden="true" />
    </figure>
  );
}

/** Keeps the plot as the model is; gives what stops that. */
function drawIn(element: HTMLElement, model: SeriesModel, picture: Picture, height: number): () => void {
  let colour = palette(element);
  model.resize(element.clientWidth);
  const plot = new UPlot(
    optionsOf(element, model, picture, height, (name) => colour(name)),
    [
      [0, 1],
      [0, 0],
    ],
    element,
  );
  const show = (): void => {
    const { view } = model;
    const { least, greatest } = picture.range(model);
    plot.batch(() => {
      plot.setScale('x', { min: view.from, max: view.to });
      plot.setScale('y', { min: least, max: greatest });
      // Also where neither has changed: what is drawn may have.
      plot.redraw(false, true);
    });
  };
  const resized = new ResizeObserver(() => {
    const width = element.clientWidth;
    if (width === 0 || width === plot.width) return;
    model.resize(width);
    plot.setSize({ width, height });
    show();
  });
  resized.observe(element);
  const stopLook = onLook(() => {
    colour = palette(element);
    show();
  });
  let edition = model.edition;
  const stop = model.drawn.hear(() => {
    if (edition === model.edition) return;
    edition = model.edition;
    show();
  });
  show();
  return () => {
    stop();
    stopLook();
    resized.disconnect();
    plot.destroy();
  };
}

/** Calls when the page looks otherwise from now on. */
function onLook(call: () => void): () => void {
  const look = new MutationObserver(call);
  look.observe(document.documentElement, { attributes: true, attributeFilter: ['data-look'] });
  const paper = matchMedia('print');
  paper.addEventListener('change', call);
  return () => {
    look.disconnect();
    paper.removeEventListener('change', call);
  };
}

function optionsOf(
  element: HTMLElement,
  model: SeriesModel,
  picture: Picture,
  height: number,
  colour: (name: string) => string,
): UPlot.Options {
  const letters_px = 0.75 * Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  const axis = {
    ...{ stroke: () => colour('--ink'), font: `${letters_px}px system-ui, sans-serif`, labelGap: 0 },
    grid: { stroke: () => colour('--plot-grid'), width: 1 },
    ticks: { stroke: () => colour('--plot-grid'), width: 1, size: 4 },
  };
  return {
    ...{ width: Math.max(1, element.clientWidth), height, ms: 1, padding: [8, RIGHT_px, 0, 0] },
    tzDate: siteDate,
    cursor: { show: false },
    legend: { show: false },
    scales: { x: { time: true, auto: false }, y: { auto: false } },
    axes: [
      {
        ...axis,
        size: 30,
        space: 64,
        values: (_, splits, __, ___, step) => splits.map((at) => tickOf(at, step)),
      },
      {
        ...{ ...axis, size: LEFT_px, space: 28 },
        values: (_, splits, __, ___, step) => splits.map((value) => number(value, digitsOf(step))),
      },
    ],
    series: [{}, { paths: () => null, points: { show: false } }],
    hooks: { draw: [(plot) => drawPicture(plot, model, picture, colour)] },
  };
}

/** Behind the point, so that two ticks never read alike. */
const digitsOf = (step: number): number => (Number.isInteger(step) ? 0 : Number.isInteger(10 * step) ? 1 : 2);

function drawPicture(
  plot: UPlot,
  model: SeriesModel,
  picture: Picture,
  colour: (name: string) => string,
): void {
  const { ctx: context, bbox, scales } = plot;
  const { min: least, max: greatest } = scales['y'] ?? {};
  if (typeof least !== 'number' || typeof greatest !== 'number') return;
  const sheet: Sheet = {
    ...{ context, left: bbox.left, top: bbox.top, width: bbox.width, height: bbox.height },
    ...{ view: model.view, least, greatest, ratio: UPlot.pxRatio },
  };
  context.save();
  context.beginPath();
  context.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  context.clip();
  context.lineJoin = 'round';
  picture.draw(model, sheet, colour);
  context.restore();
}
