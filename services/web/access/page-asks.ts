/** Pages that are there to do something: whoever may not is not led to them. Every other page is there to look. */
import type { Action } from '../../core/model/roles.js';

export interface PageAsks {
  readonly action: Action;
  /** At which bed, where the address names one. */
  readonly bed?: string;
}

const ASKS: readonly (readonly [path: string, action: Action])[] = [
  ['/jobs/fill/:bed', 'write-down'],
  ['/jobs/inspect/:bed', 'write-down'],
  ['/jobs/trial', 'compare'],
  ['/trials/:trial/change', 'compare'],
  ['/bench/beside', 'calibrate'],
  ['/settings/site', 'describe'],
  ['/settings/beds/:bed', 'describe'],
  ['/settings/people/:person', 'people'],
  ['/settings/groups/:group', 'people'],
  ['/settings/drill', 'drill'],
];

/** @param address with or without what follows `?` or `#` */
export function pageAsks(address: string): PageAsks | undefined {
  const parts = (address.split(/[?#]/)[0] ?? '').split('/');
  for (const [path, action] of ASKS) {
    const wanted = path.split('/');
    const isIt = wanted.length === parts.length && wanted.every((part, at) => fits(part, parts[at] ?? ''));
    if (!isIt) continue;
    const bed = action === 'write-down' ? parts[wanted.indexOf(':bed')] : undefined;
    return bed === undefined ? { action } : { action, bed: decodeURIComponent(bed) };
  }
  return undefined;
}

const fits = (wanted: string, part: string): boolean => wanted.startsWith(':') || wanted === part;
