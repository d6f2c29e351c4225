/** What the probes of a bed see, asked for once somebody wants to know it. */
import { useState } from 'preact/hooks';
import { type SeenAnswer, useSeen } from '../../api/seen.js';
import type { CoverageAnswer } from '../../api/types/coverage.js';
import { say } from '../../words/say.js';
import type { Round } from './marks.js';

export interface Asked {
  readonly power_W: number;
  readonly days: number;
  readonly next: boolean;
}

export interface CoverageShown {
  /** Whether somebody wants to know it. */
  readonly isOpen: boolean;
  open(is: boolean): void;
  /** Undefined until it was asked. */
  readonly asked: Asked | undefined;
  readonly seen: SeenAnswer<CoverageAnswer>;
  /** The same with the place for one more probe; asked for only once somebody wants it. */
  readonly seenNext: SeenAnswer<CoverageAnswer>;
  ask(asked: Asked | undefined): void;
}

export function useCoverage(bed: string): CoverageShown {
  const [isOpen, setOpen] = useState(false);
  const [asked, ask] = useState<Asked>();
  const open = (is: boolean): void => {
    setOpen(is);
    if (!is) ask(undefined);
  };
  const path =
    asked && `/api/beds/${encodeURIComponent(bed)}/coverage?power=${asked.power_W}&days=${asked.days}`;
  const live = { live: ['probes', 'site'], bed } as const;
  const seen = useSeen<CoverageAnswer>(path, live);
  const seenNext = useSeen<CoverageAnswer>(asked?.next ? `${path}&next=true` : undefined, live);
  return { isOpen, open, asked, seen, seenNext, ask };
}

export const letterOf = (index: number): string => String.fromCharCode(65 + index);

/** Blind spots and the place for one more probe, for the drawings. */
export function coverageRounds({ asked, seen: { answer }, seenNext }: CoverageShown): Round[] {
  if (!asked || !answer) return [];
  const spots = answer.blindSpots.map((spot, index): Round => {
    const letter = letterOf(index);
    const key = `blind-${letter}`;
    return { ...spot, key, kind: 'blind', name: letter };
  });
  const next = asked.next ? seenNext.answer?.next : undefined;
  if (!next) return spots;
  return [...spots, { ...next, key: 'next', radius: 0, kind: 'next', name: say('bed.nextProbe') }];
}
