/** A site with a pit and a box that are not filled yet, probes in both, and one in the shade. */

import { DAY_ms, formatTime } from '../../services/core/model/time.js';
import { BENCH_AT } from './bench-work.js';

type Set = Readonly<Record<string, number>>;

const FROM = formatTime(BENCH_AT - 30 * DAY_ms);

export const keepingSite = ({
  site = {} as Set,
  bed = {} as Set,
  filled = undefined as string | undefined,
} = {}) => ({
  version: 1,
  site: { id: 'keeping-ridge', name: 'Keeping ridge', timezone: 'Africa/Lusaka', thresholds: site },
  beds: [
    {
      ...{ id: 'pit-k', name: 'Pit K', kind: 'stepped-pit', thresholds: bed },
      steps: [
        { length: 150, width: 60, height: 25 },
        { length: 100, width: 60, height: 25 },
      ],
      ...(filled !== undefined && { filled }),
      roots: { count: 200, mass_kg: 60 },
    },
    { id: 'box-k', name: 'Box K', kind: 'box', steps: [{ length: 100, width: 50, height: 60 }] },
  ],
  probes: [
    { id: 'k01', placements: [{ bed: 'pit-k', x: 75, y: 30, depth: 40, from: FROM }] },
    { id: 'k02', placements: [{ bed: 'box-k', x: 50, y: 25, depth: 30, from: FROM }] },
    { id: 'k09', placements: [{ ambient: true, from: FROM }] },
  ],
});
