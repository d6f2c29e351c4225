/** A service with a site of its own, in a folder that is gone afterwards. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { loadSite } from '../../services/load.js';
import { serve } from '../../services/serve.js';
import { readServeSettings } from '../../services/settings.js';

const FROM = '2026-05-04T08:00:00Z';
const SITE = {
  version: 1,
  site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
  beds: [
    {
      ...{ id: 'pit-t', name: 'Pit T', kind: 'stepped-pit', filled: FROM },
      steps: [{ length: 150, width: 60, height: 50 }],
    },
  ],
  probes: [
    { id: 'p01', placements: [{ bed: 'pit-t', x: 75, y: 30, depth: 30, from: FROM }] },
    { id: 'p02' },
    { id: 'p09', placements: [{ ambient: true, from: FROM }] },
  ],
};

/** Gives the work the address of the service, and ends both whatever comes of it. */
export async function whileServed<Result>(work: (http: string) => Promise<Result>): Promise<Result> {
  const data = mkdtempSync(join(tmpdir(), 'sandlarder-fuzz-'));
  try {
    loadSite(data, 'site.json', SITE, Date.now());
    const flags = { data, listen: '127.0.0.1:0', mqttListen: '127.0.0.1:0' };
    const settings = readServeSettings(flags, {});
    const service = await serve({ settings, tellConsole: () => undefined, log: () => undefined });
    try {
      return await work(service.httpUrl);
    } finally {
      await service.close();
    }
  } finally {
    rmSync(data, { recursive: true, force: true });
  }
}
