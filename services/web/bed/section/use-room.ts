import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';

/** Of the letters of a drawing, as its style has it: of the letters around it. */
const LETTERS = 0.8;

export interface Room {
  readonly element: RefObject<HTMLDivElement | null>;
  /** Width as it is laid out, CSS pixels; 0 before it is. */
  readonly room: number;
  /** Size of the letters of a drawing, CSS pixels: larger where the look is. */
  readonly letters: number;
}

export function useRoom(): Room {
  const element = useRef<HTMLDivElement>(null);
  const [measured, set] = useState({ room: 0, letters: 0 });
  useEffect(() => {
    const { current } = element;
    if (!current) return undefined;
    const watcher = new ResizeObserver(([entry]) => {
      const letters = LETTERS * Number.parseFloat(getComputedStyle(current).fontSize);
      set({ room: Math.floor(entry?.contentRect.width ?? 0), letters });
    });
    watcher.observe(current);
    return () => watcher.disconnect();
  }, []);
  return { element, ...measured };
}
