/** Pictures of an inspection: kept in the database, so that they are saved and restored with all else. */
import { SandlarderError } from '../core/errors.js';
import type { Inspection } from '../core/model/inspection.js';
import { INSPECTION_LIMITS, isPhotoName } from '../core/model/inspection-detail.js';
import { PHOTO_LIMITS, photoType } from '../core/model/photo.js';
import type { LedgerPorts } from '../http/index.js';
import type { Station } from './station.js';

export class PhotoDesk {
  readonly #station: Station;
  /** Wall clock, ms. */
  readonly #now: () => number;

  constructor(station: Station, now: () => number) {
    this.#station = station;
    this.#now = now;
  }

  add(inspection: string, name: string, bytes: Buffer): ReturnType<LedgerPorts['addPhoto']> {
    return this.#station.inTransaction(() => {
      const { bed } = this.#requireInspection(inspection);
      const { photos } = this.#station.registry;
      const mediaType = requirePhoto(name, bytes);
      const view = { name, mediaType, size_bytes: bytes.length };
      const before = photos.get(inspection, name);
      if (before?.bytes.equals(bytes)) return { view, isNew: false };
      if (before)
        throw new SandlarderError(
          'CONFLICT',
          `picture ${name}: expected the bytes that are there already, got others; give it another name`,
        );
      this.#requireRoom(inspection, bytes.length);
      photos.add(inspection, { name, mediaType, bytes }, this.#now());
      this.#station.changes.bed(bed);
      return { view, isNew: true };
    });
  }

  list(inspection: string): ReturnType<LedgerPorts['photos']> {
    this.#requireInspection(inspection);
    return this.#station.registry.photos.list(inspection);
  }

  get(inspection: string, name: string): ReturnType<LedgerPorts['photo']> {
    const photo = this.#station.registry.photos.get(inspection, name);
    if (!photo) throw new SandlarderError('NOT_FOUND', `inspection "${inspection}" has no picture "${name}"`);
    return photo;
  }

  #requireInspection(id: string): Inspection {
    const inspection = this.#station.registry.inspections.get(id);
    if (!inspection) throw new SandlarderError('NOT_FOUND', `no inspection has the id "${id}"`);
    return inspection;
  }

  #requireRoom(inspection: string, size_bytes: number): void {
    const { photos } = this.#station.registry;
    const count = photos.list(inspection).length;
    if (!(count < INSPECTION_LIMITS.photos))
      throw new SandlarderError(
        'LIMIT_EXCEEDED',
        `pictures of an inspection: expected at most ${INSPECTION_LIMITS.photos}, got one more`,
      );
    const together = photos.total_bytes() + size_bytes;
    if (!(together <= PHOTO_LIMITS.together_bytes))
      throw new SandlarderError(
        'LIMIT_EXCEEDED',
        `pictures of all inspections together: expected at most ${PHOTO_LIMITS.together_bytes} bytes, got ${together}`,
      );
  }
}

function requirePhoto(name: string, bytes: Buffer): string {
  if (!isPhotoName(name))
    throw new SandlarderError(
      'BAD_REQUEST',
      `name: expected that of a file, without a folder, got ${JSON.stringify(name)}`,
    );
  const mediaType = photoType(bytes);
  if (!mediaType)
    throw new SandlarderError(
      'BAD_REQUEST',
      `picture ${name}: expected JPEG, PNG or WebP by its first bytes, got ${bytes.length === 0 ? 'nothing' : `0x${bytes.subarray(0, 4).toString('hex')}`}`,
    );
  if (!(bytes.length <= PHOTO_LIMITS.one_bytes))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `picture ${name}: expected at most ${PHOTO_LIMITS.one_bytes} bytes, got ${bytes.length}`,
    );
  return mediaType;
}
