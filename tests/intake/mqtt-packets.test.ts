import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  makePacket,
  PacketAligner,
  packetsOf,
  readVariableNumber,
  writeVariableNumber,
} from '../../services/intake/mqtt-packets.js';

const settings = { seed: 311, numRuns: 500 };

describe('variable byte integers', () => {
  // MQTT 5, table 1-1: size of variable byte integer [M].
  test.each([
    [0, [0x00]],
    [127, [0x7f]],
    [128, [0x80, 0x01]],
    [16_383, [0xff, 0x7f]],
    [16_384, [0x80, 0x80, 0x01]],
    [2_097_151, [0xff, 0xff, 0x7f]],
    [2_097_152, [0x80, 0x80, 0x80, 0x01]],
    [268_435_455, [0xff, 0xff, 0xff, 0x7f]],
  ])('%d', (value, bytes) => {
    expect(writeVariableNumber(value)).toEqual(bytes);
    expect(readVariableNumber(Uint8Array.from(bytes), 0)).toEqual({ value, end: bytes.length });
    expect(readVariableNumber(Uint8Array.from(bytes.slice(0, -1)), 0)).toBeUndefined();
  });

  test('of five bytes is refused', () => {
    expect(() => readVariableNumber(Uint8Array.of(0x80, 0x80, 0x80, 0x80, 0x01), 0)).toThrow(
      'at most 4 bytes',
    );
  });
});

/** Packets as they come off a wire: any first byte, bodies around the sizes where the length grows. */
const packet = fc
  .tuple(fc.integer({ min: 0x10, max: 0xff }), fc.oneof(fc.nat(5), fc.integer({ min: 120, max: 135 })))
  .map(([firstByte, length]) => makePacket(firstByte, new Uint8Array(length).fill(firstByte)));

/** Cuts bytes into chunks at arbitrary places. */
function cut(bytes: Buffer, places: readonly number[]): Buffer[] {
  const ends = [...new Set(places.map((place) => place % (bytes.length + 1)))].sort(
    (one, other) => one - other,
  );
  return [...ends, bytes.length].map((end, index) => bytes.subarray(ends[index - 1] ?? 0, end));
}

describe('the aligner', () => {
  test('gives the same bytes however they were cut, and whole packets only', () => {
    fc.assert(
      fc.property(fc.array(packet, { maxLength: 8 }), fc.array(fc.nat()), (packets, places) => {
        const bytes = Buffer.concat(packets);
        const aligner = new PacketAligner(1000);
        const rows = cut(bytes, places).flatMap((chunk) => aligner.align(chunk) ?? []);
        expect(Buffer.concat(rows)).toEqual(bytes);
        const seen = rows.flatMap((row) => [...packetsOf(row)].map(({ whole }) => whole.toString('hex')));
        expect(seen).toEqual(packets.map((whole) => whole.toString('hex')));
      }),
      settings,
    );
  });

  test('a packet of exactly the longest length passes, one byte more does not', () => {
    expect(new PacketAligner(12).align(makePacket(0x30, Buffer.alloc(10)))).toHaveLength(12);
    expect(() => new PacketAligner(12).align(makePacket(0x30, Buffer.alloc(11)))).toThrow(
      'MQTT packet: expected at most 12 bytes, got 13',
    );
  });

  test('a packet that is too long is refused by its header, before it has come', () => {
    expect(() => new PacketAligner(1000).align(Buffer.from([0x30, 0xff, 0xff, 0xff, 0x7f]))).toThrow(
      'at most 1000',
    );
  });

  test('a malformed length is refused', () => {
    expect(() => new PacketAligner(1000).align(Buffer.from([0x30, 0xff, 0xff, 0xff, 0xff, 0x01]))).toThrow(
      'at most 4 bytes',
    );
  });
});
