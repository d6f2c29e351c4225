/** Tables taken in and exports written beside their bare parts, each in a process of its own. */
import { cleaningUp, startOwn, temporaryDirectory } from './processes.js';
import type { BothSides } from './seasons.js';

const measured = (file: string, rows: number): Promise<BothSides> =>
  cleaningUp(async (undo) => {
    const own = await startOwn(undo, file, temporaryDirectory(undo), String(rows));
    return await own.ask<BothSides>('go');
  });

export const importMeasured = (lines: number): Promise<BothSides> => measured('./tables-import.js', lines);
export const exportMeasured = (readings: number): Promise<BothSides> =>
  measured('./tables-export.js', readings);
