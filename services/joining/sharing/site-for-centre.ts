/** The description of a site as a centre is told it. */
import type { SiteDescription } from '../../core/model/site.js';
import { siteFileOf } from '../../registry/index.js';

/** Without its people: they are told from here, and nobody is told twice. */
export function siteForCentre({ version, site, beds, probes }: SiteDescription): unknown {
  const { escalation: _, telling: _telling, ...place } = site;
  const plain = beds.map(({ keeper: _keeper, escalation: _escalation, ...bed }) => bed);
  return siteFileOf({ version, site: place, beds: plain, probes });
}
