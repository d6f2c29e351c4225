/** Frames of sensors against published vectors, and frames that must not be believed. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { RESULT, startEncoder } from './encoder.js';

const encoder = startEncoder();

/** What the test program shows where the encoder wrote nothing. */
const UNTOUCHED = 777_777;

const hex = (bytes: readonly number[]): string => Buffer.from(bytes).toString('hex');

/** A second reckoning of the checksums: bit by bit, as one long division. */
function divided(bytes: readonly number[], start: number, lowFirst: boolean): number {
  let rest = start;
  for (const byte of bytes)
    for (let bit = 0; bit < 8; bit += 1) {
      const coming = (byte >> (lowFirst ? bit : 7 - bit)) & 1;
      const out = ((rest >> (lowFirst ? 0 : 7)) & 1) ^ coming;
      rest = lowFirst ? rest >> 1 : (rest << 1) & 0xff;
      if (out === 1) rest ^= lowFirst ? 0x8c : 0x31;
    }
  return rest;
}

const withCrc = (bytes: readonly number[]): number[] => [...bytes, divided(bytes, 0, true)];
const wordWithCrc = (word: number): number[] => {
  const bytes = [word >> 8, word & 0xff];
  return [...bytes, divided(bytes, 0xff, false)];
};
const withSum = (bytes: readonly number[]): number[] => [
  ...bytes,
  bytes.reduce((sum, byte) => sum + byte, 0) & 0xff,
];

const CHECK = Buffer.from('123456789').toString('hex');

describe('checksums', () => {
  test.each([
    // Computed with a general-purpose library; the check value of the catalogue's "123456789".
    ['crc-one-wire', CHECK, 'A1'],
    // Application note on the one-wire CRC: the address 02 1C B8 01 00 00 00.
    ['crc-one-wire', '021cb801000000', 'A2'],
    // Data sheet of the DS18B20, power-on scratchpad; computed.
    ['crc-one-wire', '50054b467fff0c10', '1C'],
    ['crc-one-wire', '91014b467fff0f10', '25'],
    ['crc-one-wire', '0000000000000000', '00'],
    ['crc-one-wire', 'ffffffffffffffff', 'C9'],
    ['crc-one-wire', '', '00'],
    // Data sheet of the SHT3x-DIS: BE EF.
    ['crc-humidity', 'beef', '92'],
    ['crc-humidity', CHECK, 'F7'],
    ['crc-humidity', '0000', '81'],
    ['crc-humidity', 'ffff', 'AC'],
    ['crc-humidity', '6666', '93'],
    ['crc-humidity', '8000', 'A2'],
    ['crc-humidity', '', 'FF'],
    // Data sheet of the AM2302: 65.2 %RH and 35.1 degrees.
    ['sum', '028c015f', 'EE'],
    ['sum', 'ffffffff', 'FC'],
  ])('%s of %s is %s', async (kind, bytes, sum) => {
    expect(await encoder.ask(kind, bytes)).toBe(sum);
  });

  test('are those of a long division', async () => {
    const bytes = fc.array(fc.nat(255), { minLength: 1, maxLength: 40 });
    await fc.assert(
      fc.asyncProperty(bytes, async (frame) => {
        expect(parseInt(await encoder.ask('crc-one-wire', hex(frame)), 16)).toBe(divided(frame, 0, true));
        expect(parseInt(await encoder.ask('crc-humidity', hex(frame)), 16)).toBe(divided(frame, 0xff, false));
      }),
      { seed: 1820, numRuns: 200 },
    );
  });
});

describe('one-wire thermometer', () => {
  /** @param configuration 7F for 12 bits, 5F for 11, 3F for 10, 1F for 9 */
  const scratchpad = (raw: number, configuration = 0x7f): string =>
    hex(withCrc([raw & 0xff, raw >> 8, 0x4b, 0x46, configuration, 0xff, 0x0c, 0x10]));

  // Data sheet of the DS18B20, table "Temperature/data relationship"; -25.0625 is FE6F (an older print says FF6F).
  test.each([
    [125, 0x07d0],
    [25.0625, 0x0191],
    [10.125, 0x00a2],
    [0.5, 0x0008],
    [0, 0x0000],
    [-0.5, 0xfff8],
    [-10.125, 0xff5e],
    [-25.0625, 0xfe6f],
    [-55, 0xfc90],
  ])('%d degrees', async (celsius, raw) => {
    const milli = Math.sign(celsius) * Math.round(Math.abs(celsius) * 1000);
    expect(await encoder.numbers('one-wire', scratchpad(raw))).toEqual([RESULT.OK, milli, UNTOUCHED]);
  });

  test('the frame of 25.0625 degrees as it is printed', async () => {
    expect((await encoder.numbers('one-wire', '91014b467fff0f1025')).slice(0, 2)).toEqual([
      RESULT.OK,
      25_063,
    ]);
  });

  test.each([
    [0x7f, 25_438],
    [0x5f, 25_375],
    [0x3f, 25_250],
    [0x1f, 25_000],
  ])('with configuration %i bits that are not defined are cleared', async (configuration, milli) => {
    expect(await encoder.numbers('one-wire', scratchpad(0x0197, configuration))).toEqual([
      RESULT.OK,
      milli,
      UNTOUCHED,
    ]);
  });

  test('85 degrees after power came on is told apart, and given', async () => {
    expect(await encoder.numbers('one-wire', '50054b467fff0c101c')).toEqual([
      RESULT.POWER_ON,
      85_000,
      UNTOUCHED,
    ]);
  });

  test.each([
    ['a bus held low, whose checksum fits', '00'.repeat(9), RESULT.ALL_ZERO],
    ['an open bus', 'ff'.repeat(9), RESULT.ALL_ONE],
    ['a wrong checksum', '91014b467fff0f1024', RESULT.BAD_CHECKSUM],
    ['bytes shifted by one', '0091014b467fff0f10', RESULT.BAD_CHECKSUM],
    [
      'a thermometer of another family',
      hex(withCrc([0x32, 0, 0x4b, 0x46, 0xff, 0xff, 2, 0x10])),
      RESULT.BAD_FRAME,
    ],
    ['more than it can measure', scratchpad(0x07d1), RESULT.OUT_OF_RANGE],
    ['less than it can measure', scratchpad(0xfc8f), RESULT.OUT_OF_RANGE],
    ['07FF', scratchpad(0x07ff), RESULT.OUT_OF_RANGE],
    ['-127 degrees', scratchpad(0xf810), RESULT.OUT_OF_RANGE],
  ])('%s is refused, and nothing is written', async (_what, frame, result) => {
    expect(await encoder.numbers('one-wire', frame)).toEqual([result, UNTOUCHED, UNTOUCHED]);
  });

  test('one bit that flipped is always found', async () => {
    for (let bit = 0; bit < 72; bit += 1) {
      const frame = Buffer.from('91014b467fff0f1025', 'hex');
      frame[bit >> 3] = (frame[bit >> 3] ?? 0) ^ (1 << (bit & 7));
      const [result] = await encoder.numbers('one-wire', frame.toString('hex'));
      expect(result).toBe(RESULT.BAD_CHECKSUM);
    }
  });

  test.each([
    ['021cb801000000a2', RESULT.OK],
    ['021cb801000001a2', RESULT.BAD_CHECKSUM],
    ['00'.repeat(8), RESULT.ALL_ZERO],
    ['ff'.repeat(8), RESULT.ALL_ONE],
  ])('address %s: %i', async (rom, result) => {
    expect((await encoder.numbers('address', rom))[0]).toBe(result);
  });

  test.each([
    [21_375, RESULT.OK],
    [85_000, RESULT.POWER_ON],
    [84_938, RESULT.OK],
    [-127_000, RESULT.DISCONNECTED],
    [-55_000, RESULT.OK],
    [-55_001, RESULT.OUT_OF_RANGE],
    [125_000, RESULT.OK],
    [125_001, RESULT.OUT_OF_RANGE],
    [-196_600, RESULT.OUT_OF_RANGE],
  ])('a driver that says %i thousandths: %i', async (milli, result) => {
    expect(await encoder.numbers('driver', milli)).toEqual([result]);
  });
});

describe('I2C humidity sensor', () => {
  const frameOf = (temperature: number, humidity: number): string =>
    hex([...wordWithCrc(temperature), ...wordWithCrc(humidity)]);

  // Data sheet of the SHT3x-DIS: T = -45 + 175 S / 65535, RH = 100 S / 65535.
  test.each([
    ['666693666693', 25_000, 40_000],
    ['8000a28000a2', 42_501, 50_001],
    ['666693ffffac', 25_000, 100_000],
    ['666693000081', 25_000, 0],
  ])('%s', async (frame, temperature, humidity) => {
    expect(await encoder.numbers('i2c', frame)).toEqual([RESULT.OK, temperature, humidity]);
  });

  test('words are scaled to the nearest thousandth', async () => {
    const words = Array.from({ length: 600 }, (_, n) => 1873 + n * 103);
    const answers = await Promise.all(
      words.map((word) => encoder.numbers('i2c', frameOf(word, 65_535 - word))),
    );
    expect(answers).toEqual(
      words.map((word) => [
        RESULT.OK,
        Math.round((-45 + (175 * word) / 65_535) * 1000),
        Math.round((100_000 * (65_535 - word)) / 65_535),
      ]),
    );
  });

  test.each([
    ['a bus held low', '000000000000', RESULT.ALL_ZERO],
    ['an open bus', 'ffffffffffff', RESULT.ALL_ONE],
    ['a wrong first checksum', '666692666693', RESULT.BAD_CHECKSUM],
    ['a wrong second checksum', '666693666692', RESULT.BAD_CHECKSUM],
    ['zeros with a right checksum: -45 degrees', '000081000081', RESULT.OUT_OF_RANGE],
    ['ones with a right checksum: 130 degrees', 'ffffacffffac', RESULT.OUT_OF_RANGE],
    ['below -40 degrees', frameOf(1871, 0x8000), RESULT.OUT_OF_RANGE],
    ['above 125 degrees', frameOf(63_663, 0x8000), RESULT.OUT_OF_RANGE],
  ])('%s is refused, and nothing is written', async (_what, frame, result) => {
    expect(await encoder.numbers('i2c', frame)).toEqual([result, UNTOUCHED, UNTOUCHED]);
  });
});

describe('single-wire humidity sensor', () => {
  // Data sheet of the AM2302; the sign is the highest bit, not two's complement.
  test.each([
    ['028c015fee', 35_100, 65_200],
    [hex(withSum([0x02, 0x8c, 0x80, 0x65])), -10_100, 65_200],
    [hex(withSum([0x03, 0xe8, 0x80, 0x00])), 0, 100_000],
    [hex(withSum([0x00, 0x00, 0x03, 0x20])), 80_000, 0],
    [hex(withSum([0x00, 0x01, 0x81, 0x90])), -40_000, 100],
  ])('%s', async (frame, temperature, humidity) => {
    expect(await encoder.numbers('single-wire', frame)).toEqual([RESULT.OK, temperature, humidity]);
  });

  test.each([
    ['a line held low, whose sum fits', '0000000000', RESULT.ALL_ZERO],
    ['a line that nobody drives', 'ffffffffff', RESULT.ALL_ONE],
    ['a wrong sum', '028c015fed', RESULT.BAD_CHECKSUM],
    ['a frame of whole degrees', hex(withSum([0x28, 0x00, 0x17, 0x00])), RESULT.OUT_OF_RANGE],
    ['more than 100 %RH', hex(withSum([0x03, 0xe9, 0x01, 0x5f])), RESULT.OUT_OF_RANGE],
    ['more than 80 degrees', hex(withSum([0x02, 0x8c, 0x03, 0x21])), RESULT.OUT_OF_RANGE],
    ['less than -40 degrees', hex(withSum([0x02, 0x8c, 0x81, 0x91])), RESULT.OUT_OF_RANGE],
    ["two's complement", hex(withSum([0x02, 0x8c, 0xff, 0x9b])), RESULT.OUT_OF_RANGE],
  ])('%s is refused, and nothing is written', async (_what, frame, result) => {
    expect(await encoder.numbers('single-wire', frame)).toEqual([result, UNTOUCHED, UNTOUCHED]);
  });
});
