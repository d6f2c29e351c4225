/**
 * `kill -9` at random moments of a season being taken in, with a real process, a real file and, in the second case, a real
 * Mosquitto: nothing acknowledged is lost, nothing is stored twice, and the alarms are those of a run that nobody
 * disturbed. Few kills here; `npm run faults` does two hundred in each way.
 */
import { expect, test } from 'vitest';
import { cleaningUp } from '../bench/processes.js';
import { tryKills } from '../faults/kills.js';
import { makeSeason, SHORT_SEASON } from '../support/season.js';

const KILLS = 2;
const season = makeSeason({ ...SHORT_SEASON, days: 18, rotFromDay: 8, wetFromDay: 13 });

test.each(['built-in', 'mosquitto'] as const)(
  '%s: what was acknowledged survives kill after kill',
  async (broker) => {
    const counts = await cleaningUp((undo) => tryKills(undo, { broker, kills: KILLS, season }));
    expect(counts).toMatchObject({ kills: KILLS, kept: season.messages.length });
    expect(counts['alarms']).toBeGreaterThan(0);
  },
);
