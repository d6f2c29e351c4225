import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';

/** Width of an element as it is laid out, CSS pixels; 0 before it is. */
export function useRoom(): [RefObject<HTMLDivElement | null>, number] {
  const element = useRef<HTMLDivElement>(null);
  const [room, set] = useState(0);
  useEffect(() => {
    const { current } = element;
    if (!current) return undefined;
    const watcher = new ResizeObserver(([entry]) => set(Math.floor(entry?.contentRect.width ?? 0)));
    watcher.observe(current);
    return () => watcher.disconnect();
  }, []);
  return [element, room];
}
