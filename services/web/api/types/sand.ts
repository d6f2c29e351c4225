/** What is measured of a sand, and what it comes to. */
import type { Limit, Met } from './readiness.js';

export type SieveWeighed =
  | { readonly opening_mm: number; readonly retained_g: number }
  | { readonly number: number; readonly retained_g: number };

export type WarmBody =
  | {
      readonly shape: 'block';
      readonly length_cm: number;
      readonly width_cm: number;
      readonly height_cm: number;
    }
  | { readonly shape: 'layer'; readonly thickness_cm: number };

export interface SandMeasured {
  readonly sieving?: {
    readonly sieves: readonly SieveWeighed[];
    readonly pan_g: number;
    readonly total_g?: number;
  };
  readonly weighing?: {
    readonly wet_g: number;
    readonly dry_g: number;
    /** Between the moist one and the last, in order of time. */
    readonly driedBefore_g?: readonly number[];
    readonly container_g: number;
    readonly resolution_g: number;
    readonly way: 'oven' | 'pan';
  };
  readonly warmth?: { readonly sand_C: number; readonly shadeMean_C: number; readonly body: WarmBody };
}

export interface SandReport {
  readonly grains?: {
    readonly plain: string;
    readonly sentence: string;
    readonly USCS: readonly string[];
    readonly Wentworth: string | null;
    readonly loss_percent: number | null;
    readonly checks: readonly {
      readonly fault: string;
      readonly state: Met;
      readonly measure: string;
      readonly reason: string;
      readonly limit: Limit;
    }[];
  };
  readonly moisture?: {
    readonly sentence: string;
    readonly dryEnough: Met;
    readonly method: string;
    readonly limits: readonly Limit[];
  };
  readonly cooling?: {
    readonly sentence: string;
    readonly verdict: 'fill' | 'wait until evening' | 'wait longer';
    readonly limit: Limit;
  };
  readonly cautions: readonly string[];
}

/** `POST /api/sand` and one of `GET /api/beds/{bed}/sand`; id, bed, at and by are null where it was not kept. */
export interface Sand {
  readonly id: string | null;
  readonly at: string | null;
  readonly by: string | null;
  readonly note: string | null;
  readonly report: SandReport;
}
