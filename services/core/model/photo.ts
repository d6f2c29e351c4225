/** Pictures by their first bytes. */

/** Bounds of what is kept: a picture of 1,600 by 1,200 points takes about 400 kB as JPEG. */
export const PHOTO_LIMITS = {
  /** One picture. */
  one_bytes: 1024 * 1024,
  /** All pictures of a data directory: they lie on the card of a small board. */
  together_bytes: 512 * 1024 * 1024,
} as const;

export const PHOTO_TYPES = ['image/jpeg', 'image/png', 'image/webp'] as const;
export type PhotoType = (typeof PHOTO_TYPES)[number];

const startsWith = (bytes: Uint8Array, start: readonly number[], at = 0): boolean =>
  start.every((byte, index) => bytes[at + index] === byte);

const asciiOf = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));

/**
 * Signatures: JPEG, ISO/IEC 10918-1 B.1.1.3 (start of image, and of a marker); PNG, W3C PNG 5.2; WebP, RFC 9649 2.4.
 *
 * @returns undefined for anything else
 */
export function photoType(bytes: Uint8Array): PhotoType | undefined {
  if (startsWith(bytes, [0xff, 0xd8, 0xff])) return 'image/jpeg';
  if (startsWith(bytes, [0x89, ...asciiOf('PNG'), 0x0d, 0x0a, 0x1a, 0x0a])) return 'image/png';
  if (startsWith(bytes, asciiOf('RIFF')) && startsWith(bytes, asciiOf('WEBP'), 8)) return 'image/webp';
  return undefined;
}
