/** A season of nine probes asked for as a plot, beside bare SQL over the same parts of it. */
import { median } from 'simple-statistics';
import { DAY_ms, formatTime } from '../../services/core/model/time.js';
import { cleaningUp, type Own, startOwn, temporaryDirectory } from './processes.js';
import type { BothSides } from './seasons.js';

/** The season: about 235,000 readings. */
export const PLOT = { days: 181, probes: 9, readingsPerDay: 144 } as const;
export const PLOT_readings = PLOT.days * PLOT.probes * PLOT.readingsPerDay;
export const START = Date.UTC(2025, 0, 1);
export const END = START + PLOT.days * DAY_ms;

/** As a page asks: so many points give a part for each four of them, least and greatest of both quantities. */
const POINTS = 600;
export const WIDTH_ms = Math.ceil((END - START) / (POINTS / 4));
/** Of judged hours there is one quantity. */
export const HOURS_WIDTH_ms = Math.ceil((END - START) / (POINTS / 2));

/** Questions of each side in turns: the median counts. Those before are not timed: the code is compiled by then. */
const QUESTIONS = 15;
const WARM_UP = 10;

/** Of the bare SQL at the most. */
const GOAL = 2;

export type Part = [part: number, coldest: number, warmest: number, driest: number, moistest: number];

export interface BareAnswer {
  readonly taken_ms: number;
  /** By probe. */
  readonly parts: readonly (readonly Part[])[];
}

interface Answer {
  readonly probes: readonly {
    readonly time: readonly string[];
    readonly temperature_C: readonly (number | null)[];
    readonly humidity_RH: readonly (number | null)[];
    readonly flagged: readonly { readonly at: string }[];
    readonly expected_C: readonly (number | null)[];
  }[];
}

/** @throws Error where a part of a probe lacks its warmest or coldest reading */
function check(text: string, bare: readonly (readonly Part[])[]): void {
  const answer = JSON.parse(text) as Answer;
  const partOf = (time: string): number => Math.floor((Date.parse(time) - START) / WIDTH_ms);
  const round = (value: number): number => Math.round(value * 1e6) / 1e6;
  for (const [at, series] of answer.probes.entries()) {
    const broken = new Set(series.flagged.map((flag) => partOf(flag.at)));
    if (broken.size === 0 || !series.expected_C.some((value) => value !== null))
      throw new Error('expected flagged values and what a sound bed would show, got none');
    for (const [part, ...extremes] of bare[at] ?? []) {
      const shown = new Set(
        series.time.flatMap((time, index) =>
          partOf(time) === part ? [series.temperature_C[index], series.humidity_RH[index]] : [],
        ),
      );
      const lost = extremes.map(round).filter((value) => !shown.has(value));
      if (lost.length > 0 && !broken.has(part)) throw new Error(`expected ${lost} in part ${part}, got none`);
    }
  }
}

/** The service's own share: whoever asks is another process. */
async function oursOnce(own: Own, httpUrl: string): Promise<{ taken_ms: number; text: string }> {
  const url = `${httpUrl}/api/beds/pit/readings?from=${formatTime(START)}&to=${formatTime(END)}&points=${POINTS}`;
  const before = await own.ask<number>('taken');
  const answer = await fetch(url, { headers: { 'accept-encoding': 'identity' } });
  const text = await answer.text();
  return { taken_ms: (await own.ask<number>('taken')) - before, text };
}

async function measured(own: Own, httpUrl: string, oursFirst: boolean): Promise<BothSides> {
  const bare = (): Promise<BareAnswer> => own.ask<BareAnswer>('bare');
  for (let question = 0; question < WARM_UP; question += 1)
    check((await oursOnce(own, httpUrl)).text, (await bare()).parts);
  const [ours_ms, bare_ms]: [number[], number[]] = [[], []];
  for (let question = 0; question < QUESTIONS; question += 1) {
    if (oursFirst) ours_ms.push((await oursOnce(own, httpUrl)).taken_ms);
    bare_ms.push((await bare()).taken_ms);
    if (!oursFirst) ours_ms.push((await oursOnce(own, httpUrl)).taken_ms);
  }
  const value = median(ours_ms);
  const beside = value / median(bare_ms);
  return {
    bare: { value: median(bare_ms) },
    ours: { value, figures: [{ name: 'beside bare SQL', value: beside, unit: '', goal: GOAL }] },
  };
}

export const plotMeasured = (oursFirst: boolean): Promise<BothSides> =>
  cleaningUp(async (undo) => {
    const own = await startOwn<string>(undo, './plot-season.js', temporaryDirectory(undo));
    return await measured(own, own.first, oursFirst);
  });
