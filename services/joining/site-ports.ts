/** What the HTTP edge asks for about site descriptions. */
import { bedThresholds, siteThresholds } from '../core/model/threshold-settings.js';
import type { ChangedView, SitePorts } from '../http/index.js';
import { type AccessFacts, accessOf } from './access.js';
import type { CalibrationDesk } from './calibration-desk.js';
import { knownBed } from './known-bed.js';
import { probePage } from './probe-views.js';
import { SiteDesk, type SiteDeskParts } from './site-desk.js';

export interface SitePortParts extends SiteDeskParts {
  readonly calibrations: CalibrationDesk;
  readonly access: AccessFacts;
  /** Called once a change is kept: other people may be to be told, and beds to be judged again. */
  readonly onChange: () => void;
}

export function createSitePorts(parts: SitePortParts): SitePorts {
  const desk = new SiteDesk(parts);
  const following = (view: ChangedView): ChangedView => {
    if (view.isChanged) parts.onChange();
    return view;
  };
  return {
    list: () => desk.list(),
    description: (site) => desk.description(site),
    take: (by, description, expected) => {
      const taken = desk.take(by, description, expected);
      parts.onChange();
      return taken;
    },
    entry: (name) => desk.entry(name),
    change: (name, by, entry, expected) => following(desk.change(name, by, entry, expected)),
    move: (site, probe, move, expected) => following(desk.move(site, probe, move, expected)),
    changes: (site, limit) => parts.station.registry.siteVersions.changes(desk.known(site).site.id, limit),
    siteThresholds: (site) => siteThresholds(site === undefined ? {} : desk.known(site).site),
    bedThresholds: (id) => {
      const { site, bed } = knownBed(parts.station, id);
      return bedThresholds(site, bed);
    },
    probes: (query) => {
      if (query.site !== undefined) desk.known(query.site);
      return probePage(parts, query);
    },
    access: () => accessOf(parts.access),
  };
}
