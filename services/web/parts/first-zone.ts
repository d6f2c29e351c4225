/** On a device that is new here no page knows the clock of the site: it is asked for once. */
import { useEffect, useState } from 'preact/hooks';
import { ask } from '../api/client.js';
import { AT_HOME } from '../beds/questions.js';
import { useZone, zoneTold } from '../words/times.js';

/** @returns what changes where times that are shown already must be said anew */
export function useFirstZone(): string | undefined {
  const [first, setFirst] = useState(zoneTold());
  useEffect(() => {
    // The beds say the clock themselves: nothing more is asked for there.
    if (first !== undefined || AT_HOME.has(location.pathname)) return;
    ask<readonly { readonly timezone: string }[]>('/api/sites').then(
      ([site]) => {
        // The page itself may have been told in the meantime, and says it right.
        if (!site || zoneTold() === site.timezone) return;
        useZone(site.timezone);
        setFirst(zoneTold());
      },
      () => undefined,
    );
  }, []);
  return first;
}
