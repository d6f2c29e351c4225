/** The site of what is shown: its clock, and the people of it. */
import { useEffect, useState } from 'preact/hooks';
import { useSeen } from '../api/seen.js';
import { useZone } from '../words/times.js';

interface SiteAnswer {
  readonly site: { readonly timezone: string };
  readonly people: readonly { readonly name: string }[];
}

export interface SiteSeen {
  /** Of its people. */
  readonly names: readonly string[];
  /** Times are said by its clock from now on, or nobody can tell by which. */
  readonly settled: boolean;
}

/** @param id undefined while it is not known which site that is */
export function useSite(id: string | undefined): SiteSeen {
  const { answer, asking } = useSeen<SiteAnswer>(id === undefined ? undefined : `/api/sites/${id}`);
  const [settled, setSettled] = useState(false);
  useEffect(() => {
    if (answer) useZone(answer.site.timezone);
    if (answer || (id !== undefined && !asking)) setSettled(true);
  }, [answer, asking, id]);
  return { names: (answer?.people ?? []).map(({ name }) => name), settled };
}
