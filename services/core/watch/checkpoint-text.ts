/** A state with arrays of numbers as JSON text, exactly: arrays as base64 of their bytes, little end first. */
import { SandlarderError } from '../errors.js';

const KINDS = { f64: Float64Array, f32: Float32Array, i16: Int16Array } as const;
type Kind = keyof typeof KINDS;

const CHUNK = 8192;

function kindOf(value: unknown): Kind | undefined {
  if (value instanceof Float64Array) return 'f64';
  if (value instanceof Float32Array) return 'f32';
  return value instanceof Int16Array ? 'i16' : undefined;
}

function toBase64(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += CHUNK)
    text += String.fromCharCode(...bytes.subarray(at, at + CHUNK));
  return btoa(text);
}

export function toText(state: unknown): string {
  return JSON.stringify(state, (_key, value: unknown) => {
    const kind = kindOf(value);
    if (!kind) return value;
    const { buffer, byteOffset, byteLength } = value as Float64Array;
    return { $: kind, bytes: toBase64(new Uint8Array(buffer, byteOffset, byteLength)) };
  });
}

/** @throws SandlarderError OUT_OF_DOMAIN for text that is none of these */
export function fromText(text: string): unknown {
  try {
    return JSON.parse(text, (_key, value: unknown) => {
      if (typeof value !== 'object' || value === null || !('$' in value) || !('bytes' in value)) return value;
      const bytes = Uint8Array.from(atob(String(value.bytes)), (character) => character.charCodeAt(0));
      return new KINDS[value.$ as Kind](bytes.buffer);
    });
  } catch (error) {
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `checkpoint: expected text of this watch, got ${(error as Error).message}`,
    );
  }
}
