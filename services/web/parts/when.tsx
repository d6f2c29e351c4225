import { useEffect, useState } from 'preact/hooks';
import { ago, dayAndTime, isLongAgo, wholeTime } from '../words/times.js';

/** How often the distance of a time is said anew, ms. */
const ANEW_ms = 60_000;

/** Now, again every minute. Wall clock, ms. */
export function useNow(): number {
  const [now, set] = useState(Date.now());
  useEffect(() => {
    const timer = setInterval(() => set(Date.now()), ANEW_ms);
    return () => clearInterval(timer);
  }, []);
  return now;
}

/** A time with how long ago it was. */
export function When({ at }: { at: string | number }) {
  const now = useNow();
  return (
    <time dateTime={new Date(at).toISOString()}>
      {isLongAgo(at, now) ? wholeTime(at) : `${dayAndTime(at)} (${ago(at, now)})`}
    </time>
  );
}

/** How long ago alone; the time itself for those who point at it or hear it. */
export function Ago({ at }: { at: string | number }) {
  const now = useNow();
  return (
    <time dateTime={new Date(at).toISOString()} title={dayAndTime(at)}>
      {ago(at, now)}
    </time>
  );
}
