/** What needs a person now and did not when this was looked at before, to be told once. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { SeenAnswer } from '../api/seen.js';
import type { Today, TodayItem } from '../api/types/today.js';
import { say } from '../words/say.js';

const keyOf = ({ kind, alarm, bed, probe, text }: TodayItem): string =>
  alarm ?? [kind, bed?.id, probe, kind === 'service' ? text : ''].join('/');

/** Those of the second that were not in the first. */
export function cameUp(before: readonly TodayItem[], now: readonly TodayItem[]): TodayItem[] {
  const known = new Set(before.map(keyOf));
  return now.filter((item) => !known.has(keyOf(item)));
}

/** A sentence about what came up while the page was open; empty until something did. */
export function useCameUp({ answer, seenAt = 0 }: SeenAnswer<Today>): string {
  const openedAt = useRef(Date.now());
  const before = useRef<readonly TodayItem[]>(undefined);
  const [told, tell] = useState('');
  useEffect(() => {
    // What this device saw some other day is nothing to compare with.
    if (answer === undefined || !(seenAt >= openedAt.current)) return;
    const fresh = before.current === undefined ? [] : cameUp(before.current, answer.items);
    before.current = answer.items;
    const [first] = fresh;
    if (first === undefined) return;
    const values = { count: fresh.length, text: first.text };
    tell(say(fresh.length === 1 ? 'beds.cameUp' : 'beds.cameUpMany', values));
  }, [answer, seenAt]);
  return told;
}
