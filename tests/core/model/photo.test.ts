import { expect, test } from 'vitest';
import { photoType } from '../../../services/core/model/photo.js';

const bytes = (...parts: (string | number[])[]): Uint8Array =>
  Uint8Array.from(
    parts.flatMap((part) => (typeof part === 'string' ? [...Buffer.from(part, 'latin1')] : part)),
  );

test.each<[string | undefined, Uint8Array]>([
  ['image/jpeg', bytes([0xff, 0xd8, 0xff, 0xe0])],
  ['image/png', bytes([0x89], 'PNG\r\n', [0x1a], '\n')],
  ['image/webp', bytes('RIFF', [4, 0, 0, 0], 'WEBPVP8 ')],
  [undefined, bytes('RIFF', [4, 0, 0, 0], 'WAVE')],
  [undefined, bytes([0xff, 0xd8])],
  [undefined, bytes([0x89], 'PNG\n')],
  [undefined, bytes('GIF89a')],
  [undefined, bytes('<svg xmlns="http://www.w3.org/2000/svg"/>')],
  [undefined, bytes('%PDF-1.4')],
  [undefined, bytes()],
])('%s is told by its first bytes', (expected, file) => {
  expect(photoType(file)).toBe(expected);
});
