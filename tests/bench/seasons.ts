/** A season of a bed through the watch beside the bare arithmetic of its filter, in a process of its own. */
import type { Measured } from './measured.js';
import { cleaningUp, startOwn } from './processes.js';

/** The season: six probes that measure every ten minutes, with the shade probe's readings. */
export const SEASON = { days: 150, probes: 6, everyMinutes: 10 } as const;
export const SEASON_readings = SEASON.days * ((24 * 60) / SEASON.everyMinutes) * (SEASON.probes + 1);

export interface BothSides {
  readonly bare: Measured;
  readonly ours: Measured;
}

export const seasonMeasured = (rots: boolean): Promise<BothSides> =>
  cleaningUp(async (undo) => {
    const own = await startOwn(undo, './bed-season.js', rots ? 'rots' : 'sound');
    return await own.ask<BothSides>('go');
  });
