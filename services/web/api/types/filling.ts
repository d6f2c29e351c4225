/** Fillings of a bed, as the page reads them. Lengths in cm, masses in kg, times as ISO 8601 text. */
import type { Step } from '../../../core/model/bed.js';

/** A bed that is filled, or to be filled. */
export interface BedToFill {
  readonly id: string;
  readonly site: string;
  readonly name: string;
  /** The top one first. */
  readonly steps: readonly Step[];
  readonly filled: string | null;
  /** Null where its stock is not kept. */
  readonly rootsLeft: number | null;
  readonly probes: readonly Placed[];
}

/** A probe that stands in a bed. */
export interface Placed {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

/** A probe of any site, and where it stands now. */
export interface KnownProbe {
  readonly site: string;
  readonly id: string;
  readonly stands: { readonly bed?: string; readonly ambient?: true } | null;
}

export interface Buried {
  readonly probe: string;
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

export interface Course {
  readonly roots: number;
  readonly mass_kg?: number;
}

export interface Filling {
  readonly id: string;
  readonly at: string;
  readonly by: string;
  /** The lowest first. */
  readonly courses: readonly Course[];
  readonly roots: number;
  readonly mass_kg: number | null;
  readonly cultivar?: string;
  readonly field?: string;
  readonly lot?: string;
  readonly note?: string;
  readonly buried: readonly Buried[];
  readonly inForce: boolean;
}

/** A filling that was taken, with what its probes should show. The texts are the service's. */
export interface Filled extends Filling {
  readonly probes: readonly (Buried & { readonly text: string })[];
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
}

/** Whether a probe lies as deep as was said. */
export interface BuriedDepth extends Buried {
  readonly verdict: 'as planned' | 'shallower' | 'deeper' | 'cannot tell';
  readonly text: string;
}

/** Whether a bed may be filled. */
export interface FillReadiness {
  readonly verdict: 'ready' | 'not ready' | 'unknown';
  readonly sentence: string;
  readonly record: {
    readonly overrides: readonly { readonly by: string; readonly at: string; readonly reason: string }[];
  } | null;
}
