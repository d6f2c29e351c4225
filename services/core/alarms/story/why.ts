/** Every number and word that an alarm rests on, opened: what it is called, and what it was held against. */
import { timeInWords } from '../../calibration/certificate-words.js';
import type { Episode } from '../../model/alarm.js';
import { evidenceItemInWords, namedInWords } from '../evidence-in-words.js';
import { wordOf } from '../evidence-values.js';
import { type EvidenceQuantity, evidenceName } from './evidence-table.js';
import { type HeldAgainst, type Overrides, thresholdsOf } from './held-against.js';

export interface WhyItem {
  /** As in the evidence. */
  readonly name: string;
  /** What it is, in words. */
  readonly label: string;
  readonly value: number | string;
  /** `time` for an event time, `1` for a ratio; null for a word. */
  readonly unit: string | null;
  /** The value as a keeper says it, where the number or name itself says nothing to them; else null. */
  readonly inWords: string | null;
  /** The same in a few words, with the number; times by the clock of the site. */
  readonly text: string;
  /** The probe whose readings it rests on; null where it rests on no single probe. */
  readonly probe: string | null;
  readonly quantity: EvidenceQuantity | null;
  readonly thresholds: readonly HeldAgainst[];
}

type Judged = Pick<Episode, 'kind' | 'action' | 'subject' | 'evidence'>;

/** The probe that an alarm is about, or whose readings its numbers are of. */
export const probeOf = ({ kind, subject, evidence }: Judged): string | null =>
  wordOf(evidence, 'probe') ?? (kind.startsWith('probe-') && subject !== '' ? subject : null);

/**
 * In the order of the evidence.
 *
 * @param overrides of the site and the bed as they stand
 * @param timeZone IANA name; UTC where null
 */
export function whyOf(judged: Judged, overrides: Overrides, timeZone: string | null = null): WhyItem[] {
  const probe = probeOf(judged);
  return Object.entries(judged.evidence).map(([name, value]) => {
    const { label, unit, quantity } = evidenceName(name, value);
    return {
      ...{ name, label, value, unit: unit ?? null },
      inWords: namedInWords(name, value),
      text: evidenceItemInWords(name, value, (time) => timeInWords(time, timeZone)),
      probe: quantity === undefined ? null : probe,
      quantity: quantity ?? null,
      thresholds: thresholdsOf(name, judged, overrides),
    };
  });
}
