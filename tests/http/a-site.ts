/** A site that is read and changed over the HTTP edge. */
import { DAY_ms } from '../../services/core/model/time.js';
import { SHORT_SEASON, siteOf } from '../support/season.js';
import { openStation } from '../support/station.js';
import { appOnStation } from './app-on-station.js';

/** Wall clock: a month after the bed was filled. */
export const SITE_NOW = SHORT_SEASON.startAt + 30 * DAY_ms;

export const SITE = '/api/sites/test-ridge';

export async function siteApp(site: unknown = siteOf(SHORT_SEASON)) {
  const station = openStation({ now: () => SITE_NOW });
  station.load(site, SITE_NOW - DAY_ms);
  station.station.refresh();
  const app = await appOnStation(station, { now: () => SITE_NOW, startedAt: SITE_NOW });
  const read = async (url: string) => {
    const answer = await app.get(`${SITE}/${url}`);
    return { entry: answer.json(), tag: String(answer.headers['etag']) };
  };
  return {
    ...app,
    read,
    /** Reads an entry, changes it, and puts it back by what was read. */
    alter: async (kind: string, url: string, change: object) => {
      const { entry, tag } = await read(url);
      return app.put(`${SITE}/${url}`, { by: 'Wanja', [kind]: { ...entry, ...change } }, { 'if-match': tag });
    },
    add: (kind: string, url: string, entry: object) =>
      app.put(`${SITE}/${url}`, { by: 'Wanja', [kind]: entry }, { 'if-none-match': '*' }),
    move: (probe: string, body: object, headers: Record<string, string> = { 'if-match': '*' }) =>
      app.app.inject({
        ...{ method: 'POST', url: `${SITE}/probes/${probe}/moves`, headers },
        payload: { by: 'Wanja', ...body },
      }),
    take: (description: unknown, headers: Record<string, string>) =>
      app.app.inject({
        ...{ method: 'POST', url: '/api/sites', headers },
        payload: { by: 'Wanja', description },
      }),
  };
}
