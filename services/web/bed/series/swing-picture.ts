/** How much of the swing outside arrives, over what dry, damp and wet sand would let through. */
import type { ProbeSwingAnswer, SwingAnswer } from '../../api/types/series.js';
import { say } from '../../words/say.js';
import { lookOf } from './colours.js';
import type { SeriesModel } from './model.js';
import { type Sheet, strokeLine, xOf, yOf } from './pen.js';
import type { Picture } from './pictures.js';
import { DAY_ms } from './span.js';

/** Two days without a share are a gap. */
const GAP_ms = 1.5 * DAY_ms;

const ofProbe = (swing: SwingAnswer | undefined, probe: string): readonly ProbeSwingAnswer[] =>
  swing?.probes.filter((one) => one.probe === probe) ?? [];

export function swingPicture(swing: SwingAnswer | undefined): Picture {
  return {
    range: ({ choice, view }) => {
      const shown = ofProbe(swing, choice.front).flatMap(({ lets, time, share }) => [
        lets ? lets.wetFrom * 1.6 : 0,
        ...share.filter((_, at) => {
          const here = Date.parse(time[at] as string);
          return here >= view.from && here <= view.to;
        }),
      ]);
      const most = Math.max(0.02, ...shown.map((share) => share ?? 0));
      return { least: 0, greatest: Math.ceil(most * 110) };
    },
    draw: (model, sheet, colour) => {
      drawSand(model, sheet, colour, swing);
      const { choice, site } = model;
      const others = choice.others ? site.probes.filter((id) => id !== choice.front) : [];
      for (const probe of others) drawShares(model, sheet, colour, ofProbe(swing, probe), probe, 1);
      drawShares(model, sheet, colour, ofProbe(swing, choice.front), choice.front, 2.5);
    },
  };
}

/** Bands across the whole plot, of the place where the probe stands last. */
function drawSand(
  { choice }: SeriesModel,
  sheet: Sheet,
  colour: (name: string) => string,
  swing: SwingAnswer | undefined,
): void {
  const lets = ofProbe(swing, choice.front).at(-1)?.lets;
  if (!lets) return;
  const { context, left, width, greatest, ratio } = sheet;
  const bands = [
    ['series.sandDry', 0, 100 * lets.dampFrom, '--plot-dry'],
    ['series.sandDamp', 100 * lets.dampFrom, 100 * lets.wetFrom, '--plot-damp'],
    ['series.sandWet', 100 * lets.wetFrom, greatest, '--plot-wet'],
  ] as const;
  context.font = `${12 * ratio}px system-ui, sans-serif`;
  context.textBaseline = 'bottom';
  context.textAlign = 'left';
  for (const [word, from, to, fill] of bands) {
    const [low, high] = [yOf(sheet, from), yOf(sheet, Math.min(to, greatest))];
    context.fillStyle = colour(fill);
    context.fillRect(left, high, width, low - high);
    context.fillStyle = colour('--ink');
    if (low - high > 14 * ratio) context.fillText(say(word), left + 4 * ratio, low - 1 * ratio);
  }
}

function drawShares(
  { site }: SeriesModel,
  sheet: Sheet,
  colour: (name: string) => string,
  swings: readonly ProbeSwingAnswer[],
  probe: string,
  width: number,
): void {
  const { context, ratio } = sheet;
  const look = lookOf(site.probes.indexOf(probe));
  context.strokeStyle = colour(look.colour);
  context.lineWidth = width * ratio;
  for (const swing of swings) {
    const time = Float64Array.from(swing.time, (text) => Date.parse(text));
    const value = Float64Array.from(swing.share, (share) => 100 * (share ?? Number.NaN));
    context.setLineDash(width > 1 ? [] : look.stroke.map((length) => length * ratio));
    strokeLine(sheet, [{ time, value, clip: sheet.view, gap_ms: GAP_ms }]);
    context.setLineDash([]);
    if (width > 1) drawMarks(sheet, swing, time, value);
  }
}

/** A bar as long as the share is uncertain; an arrow down where it is a bound. */
function drawMarks(sheet: Sheet, swing: ProbeSwingAnswer, time: Float64Array, value: Float64Array): void {
  const { context, view, ratio } = sheet;
  context.lineWidth = 1.5 * ratio;
  for (const [at, here] of time.entries()) {
    const shown = value[at] as number;
    if (Number.isNaN(shown) || here < view.from || here > view.to) continue;
    const x = xOf(sheet, here);
    const half = swing.uncertainty[at];
    context.beginPath();
    if (swing.atMost[at]) {
      const y = yOf(sheet, shown);
      context.moveTo(x - 4 * ratio, y);
      context.lineTo(x, y + 6 * ratio);
      context.lineTo(x + 4 * ratio, y);
    } else if (half !== null && half !== undefined) {
      context.moveTo(x, yOf(sheet, shown + 100 * half));
      context.lineTo(x, yOf(sheet, Math.max(0, shown - 100 * half)));
    }
    context.stroke();
  }
}
