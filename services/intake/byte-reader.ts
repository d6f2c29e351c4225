/** Reads the fields of an MQTT packet one after another; anything that is not there is an error, never a guess. */
import { SandlarderError } from '../core/errors.js';
import { readVariableNumber } from './mqtt-packets.js';

export class ByteReader {
  readonly #bytes: Buffer;
  #offset = 0;

  constructor(bytes: Buffer) {
    this.#bytes = bytes;
  }

  /** @throws SandlarderError BAD_MESSAGE where fewer bytes are left */
  take(length: number): Buffer {
    const end = this.#offset + length;
    if (!(end <= this.#bytes.length))
      throw new SandlarderError(
        'BAD_MESSAGE',
        `MQTT packet: expected ${length} more bytes, got ${this.#bytes.length - this.#offset}`,
      );
    const taken = this.#bytes.subarray(this.#offset, end);
    this.#offset = end;
    return taken;
  }

  byte(): number {
    return this.take(1).readUInt8(0);
  }

  /** A field with its two-byte length [MQTT-1.5.3], the length included. */
  lengthAndText(): Buffer {
    const start = this.#offset;
    const length = this.take(2).readUInt16BE(0);
    this.take(length);
    return this.#bytes.subarray(start, this.#offset);
  }

  /** A set of properties [MQTT5-2.2.2] without its length. */
  properties(): Buffer {
    const length = readVariableNumber(this.#bytes, this.#offset);
    if (length === undefined)
      throw new SandlarderError('BAD_MESSAGE', 'MQTT packet: expected properties, got its end');
    this.#offset = length.end;
    return this.take(length.value);
  }

  get isAtEnd(): boolean {
    return this.#offset === this.#bytes.length;
  }

  rest(): Buffer {
    return this.take(this.#bytes.length - this.#offset);
  }
}
