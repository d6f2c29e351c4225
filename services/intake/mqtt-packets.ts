/** The outside of MQTT control packets: where one ends and the next begins, the same in 3.1.1 and 5. */
import { SandlarderError } from '../core/errors.js';

/** Control packet types [MQTT-2.1.2], in the upper half of the first byte. */
export const PACKET_TYPE = {
  CONNECT: 1,
  CONNACK: 2,
  PUBLISH: 3,
  PUBACK: 4,
  PUBREC: 5,
  PUBREL: 6,
  PUBCOMP: 7,
  SUBSCRIBE: 8,
  SUBACK: 9,
  UNSUBSCRIBE: 10,
  UNSUBACK: 11,
  PINGREQ: 12,
  PINGRESP: 13,
  DISCONNECT: 14,
  AUTH: 15,
} as const;

/** A number in the variable byte form. */
export interface VariableNumber {
  readonly value: number;
  /** Offset of what follows it. */
  readonly end: number;
}

/**
 * Reads a variable byte integer [MQTT5-1.5.5].
 *
 * @returns undefined where the bytes end before the number does
 * @throws SandlarderError BAD_MESSAGE where it has more than four bytes
 */
export function readVariableNumber(bytes: Uint8Array, offset: number): VariableNumber | undefined {
  let value = 0;
  for (let index = 0; index < 4; index += 1) {
    const byte = bytes[offset + index];
    if (byte === undefined) return undefined;
    value += (byte & 0x7f) * 2 ** (7 * index);
    if (byte < 0x80) return { value, end: offset + index + 1 };
  }
  throw new SandlarderError('BAD_MESSAGE', 'length in MQTT: expected at most 4 bytes, got more');
}

/** Writes a variable byte integer, 0 to 268,435,455. */
export function writeVariableNumber(value: number): number[] {
  const bytes: number[] = [];
  let rest = value;
  do {
    const low = rest % 0x80;
    rest = Math.floor(rest / 0x80);
    bytes.push(rest > 0 ? low + 0x80 : low);
  } while (rest > 0);
  return bytes;
}

/** One control packet in a row of them. */
export interface Packet {
  readonly type: number;
  readonly firstByte: number;
  /** Variable header and payload. */
  readonly body: Buffer;
  /** All of it. */
  readonly whole: Buffer;
}

/** The packets of a row of whole ones, as {@link PacketAligner} gives them. */
export function* packetsOf(row: Buffer): Generator<Packet> {
  let start = 0;
  while (start < row.length) {
    const firstByte = row[start] ?? 0;
    const length = readVariableNumber(row, start + 1) ?? { value: 0, end: row.length };
    const end = length.end + length.value;
    yield {
      type: firstByte >> 4,
      firstByte,
      body: row.subarray(length.end, end),
      whole: row.subarray(start, end),
    };
    start = end;
  }
}

/** A control packet from its first byte and what follows its length. */
export function makePacket(firstByte: number, ...parts: readonly Uint8Array[]): Buffer {
  const length = parts.reduce((sum, part) => sum + part.length, 0);
  return Buffer.concat([Uint8Array.from([firstByte, ...writeVariableNumber(length)]), ...parts]);
}

/** Cuts a stream of bytes between packets: gives whole packets on, and keeps the begun one back. */
export class PacketAligner {
  readonly #longest_bytes: number;
  #kept: Buffer[] = [];
  #kept_bytes = 0;
  /** Bytes without which no further packet can be whole. */
  #needed_bytes = 2;

  /** @param longest_bytes longest packet that is let through, its header included */
  constructor(longest_bytes: number) {
    this.#longest_bytes = longest_bytes;
  }

  /**
   * @returns the packets that are whole by now, in a row; undefined where there is none
   * @throws SandlarderError BAD_MESSAGE where a packet's length is malformed, LIMIT_EXCEEDED where it is too long
   */
  align(chunk: Buffer): Buffer | undefined {
    this.#kept.push(chunk);
    this.#kept_bytes += chunk.length;
    if (this.#kept_bytes < this.#needed_bytes) return undefined;
    const bytes = this.#kept.length === 1 ? chunk : Buffer.concat(this.#kept, this.#kept_bytes);
    const end = this.#endOfWhole(bytes);
    const rest = bytes.subarray(end);
    this.#kept = rest.length > 0 ? [rest] : [];
    this.#kept_bytes = rest.length;
    return end > 0 ? bytes.subarray(0, end) : undefined;
  }

  #endOfWhole(bytes: Buffer): number {
    let start = 0;
    for (;;) {
      const length = start < bytes.length ? readVariableNumber(bytes, start + 1) : undefined;
      if (length === undefined) {
        this.#needed_bytes = Math.max(2, bytes.length - start + 1);
        return start;
      }
      const end = length.end + length.value;
      if (!(end - start <= this.#longest_bytes)) throw tooLong(end - start, this.#longest_bytes);
      if (end > bytes.length) {
        this.#needed_bytes = end - start;
        return start;
      }
      start = end;
    }
  }
}

function tooLong(bytes: number, longest_bytes: number): SandlarderError {
  return new SandlarderError(
    'LIMIT_EXCEEDED',
    `MQTT packet: expected at most ${longest_bytes} bytes, got ${bytes}`,
  );
}
