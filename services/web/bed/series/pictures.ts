/** What each plot shows: the range of its values, and its lines over one another. */
import type { SwingAnswer } from '../../api/types/series.js';
import { lookOf } from './colours.js';
import type { SeriesModel } from './model.js';
import { type Band, crossAt, fillBand, type Line, type Sheet, strokeLine } from './pen.js';
import { type Extent, type Range, rangeOf } from './range.js';
import { swingPicture } from './swing-picture.js';
import type { Piece } from './tiles.js';

export interface Picture {
  range(model: SeriesModel): Range;
  draw(model: SeriesModel, sheet: Sheet, colour: (name: string) => string): void;
}

type Value = (piece: Piece) => Line;

const temperature: Value = ({ columns: { time, temperature: value, gap_ms }, clip }) => ({
  ...{ time, value, clip, gap_ms },
});
const humidity: Value = ({ columns: { time, humidity: value, gap_ms }, clip }) => ({
  ...{ time, value, clip, gap_ms },
});
const expected: Value = ({ columns: { hours }, clip }) => ({
  ...{ time: hours.time, value: hours.expected, clip, gap_ms: hours.gap_ms },
});
const excess: Value = ({ columns: { hours }, clip }) => ({
  ...{ time: hours.time, value: hours.excess, clip, gap_ms: hours.gap_ms },
});
const expectedBand = (piece: Piece): Band => ({ ...expected(piece), half: piece.columns.hours.band });

/** A sound bed's excess is none: its band lies around 0. */
const excessBand = (piece: Piece): Band => ({
  ...{ ...excess(piece), half: piece.columns.hours.band },
  value: piece.columns.hours.none,
});

const behind = ({ site, choice }: SeriesModel): readonly string[] =>
  choice.others ? site.probes.filter((id) => id !== choice.front) : [];

const piecesOf = (model: SeriesModel, probes: readonly string[]): Piece[] =>
  probes.flatMap((id) => model.pieces(id));

function drawBehind(model: SeriesModel, sheet: Sheet, colour: (name: string) => string, value: Value): void {
  const { context, ratio } = sheet;
  context.lineWidth = ratio;
  for (const probe of behind(model)) drawThin(model, sheet, colour, probe, value);
  context.globalAlpha = 1;
}

function drawThin(
  model: SeriesModel,
  sheet: Sheet,
  colour: (name: string) => string,
  probe: string,
  value: Value,
): void {
  const look = lookOf(model.site.probes.indexOf(probe));
  sheet.context.globalAlpha = 0.75;
  sheet.context.strokeStyle = colour(look.colour);
  sheet.context.setLineDash(look.stroke.map((length) => length * sheet.ratio));
  strokeLine(sheet, model.pieces(probe).map(value));
}

function drawFront(model: SeriesModel, sheet: Sheet, colour: (name: string) => string, value: Value): void {
  const { context, ratio } = sheet;
  const look = lookOf(model.site.probes.indexOf(model.choice.front));
  context.strokeStyle = colour(look.colour);
  context.lineWidth = 2.5 * ratio;
  context.setLineDash([]);
  strokeLine(sheet, model.pieces(model.choice.front).map(value));
}

function drawFlagged(
  model: SeriesModel,
  sheet: Sheet,
  colour: (name: string) => string,
  probe: string,
  quantity: 'temperature' | 'humidity',
): void {
  const { context, ratio, view } = sheet;
  context.strokeStyle = colour('--plot-flag');
  context.lineWidth = 2 * ratio;
  context.setLineDash([]);
  for (const { columns, clip } of model.pieces(probe))
    for (const flag of columns.flagged)
      if (flag.quantity === quantity && flag.at >= Math.max(clip.from, view.from) && flag.at < clip.to)
        crossAt(sheet, flag.at, flag.value);
}

function drawBand(sheet: Sheet, fill: string, bands: readonly Band[]): void {
  sheet.context.fillStyle = fill;
  fillBand(sheet, bands);
}

/** How far off a calibrated value may be: a narrow band in the probe's own colour. */
function drawUncertainty(
  model: SeriesModel,
  sheet: Sheet,
  colour: (name: string) => string,
  bandOf: (piece: Piece) => Band,
): void {
  const { front } = model.choice;
  sheet.context.globalAlpha = 0.3;
  drawBand(sheet, colour(lookOf(model.site.probes.indexOf(front)).colour), model.pieces(front).map(bandOf));
  sheet.context.globalAlpha = 1;
}

const uncertainTemperature = (piece: Piece): Band => ({
  ...{ ...temperature(piece), half: piece.columns.temperatureUncertainty },
});
const uncertainHumidity = (piece: Piece): Band => ({
  ...{ ...humidity(piece), half: piece.columns.humidityUncertainty },
});

const extentOf = (line: Line & { half?: Float64Array }): Extent => line;

const TEMPERATURE: Picture = {
  range: (model) => {
    const front = model.pieces(model.choice.front);
    const others = piecesOf(model, behind(model));
    const lines = [...front, ...others].map(temperature);
    return rangeOf([...lines, ...front.map(expectedBand)].map(extentOf), 0.5, { least: 18, greatest: 22 });
  },
  draw: (model, sheet, colour) => {
    const front = model.pieces(model.choice.front);
    drawBand(sheet, colour('--plot-band'), front.map(expectedBand));
    drawBehind(model, sheet, colour, temperature);
    sheet.context.strokeStyle = colour('--plot-expected');
    sheet.context.lineWidth = 1.5 * sheet.ratio;
    sheet.context.setLineDash([6 * sheet.ratio, 4 * sheet.ratio]);
    strokeLine(sheet, front.map(expected));
    drawUncertainty(model, sheet, colour, uncertainTemperature);
    drawFront(model, sheet, colour, temperature);
    drawFlagged(model, sheet, colour, model.choice.front, 'temperature');
  },
};

const EXCESS: Picture = {
  range: (model) => {
    const front = model.pieces(model.choice.front);
    const lines = [...front, ...piecesOf(model, behind(model))].map(excess);
    return rangeOf([...lines, ...front.map(excessBand)].map(extentOf), 0.5, { least: -1, greatest: 1 });
  },
  draw: (model, sheet, colour) => {
    drawBand(sheet, colour('--plot-band'), model.pieces(model.choice.front).map(excessBand));
    drawBehind(model, sheet, colour, excess);
    drawFront(model, sheet, colour, excess);
  },
};

const HUMIDITY: Picture = {
  range: (model) =>
    rangeOf(
      piecesOf(model, [model.choice.front, ...behind(model)])
        .map(humidity)
        .map(extentOf),
      5,
      { least: 75, greatest: 95 },
    ),
  draw: (model, sheet, colour) => {
    drawBehind(model, sheet, colour, humidity);
    drawUncertainty(model, sheet, colour, uncertainHumidity);
    drawFront(model, sheet, colour, humidity);
    drawFlagged(model, sheet, colour, model.choice.front, 'humidity');
  },
};

const SHADE: Picture = {
  range: (model) =>
    rangeOf(piecesOf(model, model.site.shade).map(temperature).map(extentOf), 5, { least: 15, greatest: 30 }),
  draw: (model, sheet, colour) => {
    sheet.context.strokeStyle = colour('--plot-shade');
    sheet.context.lineWidth = 1.5 * sheet.ratio;
    sheet.context.setLineDash([]);
    for (const probe of model.site.shade) {
      strokeLine(sheet, model.pieces(probe).map(temperature));
      drawFlagged(model, sheet, colour, probe, 'temperature');
    }
  },
};

export const PICTURES = {
  temperature: TEMPERATURE,
  excess: EXCESS,
  humidity: HUMIDITY,
  shade: SHADE,
} as const;

export const pictureOf = (name: keyof typeof PICTURES | 'swing', swing: SwingAnswer | undefined): Picture =>
  name === 'swing' ? swingPicture(swing) : PICTURES[name];
