/**
 * The watch over a bed of sand: reading quality before all else, then warmth, damp and thermal time, and from these
 * the conditions that someone must act on.
 */
import { SandlarderError } from '../errors.js';
import { BedWatching, type SavedWatching } from './bed-watching.js';
import { fromText } from './checkpoint-text.js';
import type { BedWatch, Watch, WatchedBed } from './watch.js';

/** Changes with every change of what the watch answers. */
const VERSION = 'sand-7';

function resume(bed: WatchedBed, checkpoint: string): BedWatch {
  const saved = fromText(checkpoint) as Partial<SavedWatching>;
  if (saved.version !== VERSION || saved.bed !== bed.bed.id)
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `checkpoint: expected one of version ${VERSION} and bed "${bed.bed.id}", got ${String(saved.version)} and "${String(saved.bed)}"`,
    );
  const watching = new BedWatching(bed, VERSION);
  watching.restore(saved as SavedWatching);
  return watching;
}

export const sandWatch: Watch = {
  version: VERSION,
  open: (bed, checkpoint) =>
    checkpoint === undefined ? new BedWatching(bed, VERSION) : resume(bed, checkpoint),
};
