/** What whoever filled a bed is told: what its probes should show, and what does not fit together. */
import {
  expectedInWords,
  expectedSwing,
  fillingCautions,
  fillingsInForce,
  latestFilling,
  roomNote,
} from '../core/keeping/index.js';
import type { Filling } from '../core/model/filling.js';
import { formatTime } from '../core/model/time.js';
import type { BuriedView, FilledView, FillingView } from '../http/index.js';
import type { KnownBed } from './directory.js';
import type { Filled } from './record-desk.js';
import type { Station } from './station.js';

/** Fillings of a bed, the newest first. */
export function fillingViews({ registry }: Station, bed: string): FillingView[] {
  const all = registry.fillings.ofBed(bed);
  const standing = new Set(fillingsInForce(all).map(({ id }) => id));
  return all.map((filling) => ({ filling, inForce: standing.has(filling.id) })).reverse();
}

/** @param leftBefore roots in the bed by its ledger before it was written down; null where its stock is not kept */
export function filledView(
  station: Station,
  known: KnownBed,
  { record: filling, isNew, taken }: Filled,
  leftBefore: number | null,
): FilledView {
  const all = station.registry.fillings.ofBed(known.bed.id);
  return {
    ...{ filling, isNew, inForce: fillingsInForce(all).some(({ id }) => id === filling.id) },
    probes: filling.probes.map((buried): BuriedView => {
      const expected = expectedSwing(known.bed, buried);
      return { ...buried, expected, text: `${buried.probe}: ${expectedInWords(expected)}` };
    }),
    notes: [
      ...taken,
      ...[roomNote(filling, known.bed.steps) ?? []].flat(),
      ...watchNotes(known, filling, latestFilling(all, known.bed.id)),
      ...(isNew && filling.supersedes === undefined && (leftBefore ?? 0) > 0
        ? [
            `by the ledger ${leftBefore} roots were in the bed already: write down what became of them, or they count with the new ones`,
          ]
        : []),
    ],
    cautions: fillingCautions(known.bed.kind),
  };
}

/** Since when the bed counts as filled for the watch, where that is not this filling. */
function watchNotes({ bed, shade }: KnownBed, filling: Filling, latest: Filling | undefined): string[] {
  const notes: string[] = [];
  if (latest?.id !== filling.id)
    notes.push(
      latest
        ? `the bed is watched as filled on ${formatTime(latest.at)}, by a later filling or one that took its place`
        : 'another filling took its place',
    );
  else if (bed.filled !== filling.at)
    notes.push(
      `the site description says that the bed was filled later, on ${formatTime(bed.filled ?? 0)}: that stands for the watch`,
    );
  if (filling.probes.length > 0 && shade.length === 0)
    notes.push(
      'no probe stands in the shade outside: how deep the probes lie cannot be told from their readings',
    );
  return notes;
}
