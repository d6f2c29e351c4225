/** Pictures of a look: what can be seen to be wrong before anything is sent is said then. */
import { SandlarderError } from '../../core/errors.js';
import { PHOTO_LIMITS, photoType } from '../../core/model/photo.js';
import { bytesOf } from '../../files.js';

/** @throws SandlarderError WRONG_USAGE for a file that cannot be read, is longer than is kept, or is no picture */
export function requirePhotos(files: readonly string[] = []): void {
  for (const file of files) {
    const wrong = wrongWith(file);
    if (wrong !== undefined) throw new SandlarderError('WRONG_USAGE', `--photo: ${file}: ${wrong}`);
  }
}

function wrongWith(file: string): string | undefined {
  const bytes = bytesOf(file, { flag: '--photo' });
  if (!(bytes.length <= PHOTO_LIMITS.one_bytes))
    return `expected at most ${PHOTO_LIMITS.one_bytes} bytes (1 MiB), got ${bytes.length}`;
  return photoType(bytes) ? undefined : 'expected JPEG, PNG or WebP by its first bytes';
}
