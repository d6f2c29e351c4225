/**
 * A client's connection to the built-in broker: keeps packets that are too long from it, and lets clients of MQTT 5
 * speak to it, which itself speaks 3.1.1.
 */
import type { Socket } from 'node:net';
import { SandlarderError } from '../core/errors.js';
import { ByteReader } from './byte-reader.js';
import { PACKET_TYPE, PacketAligner, packetsOf } from './mqtt-packets.js';
import { Mqtt5Translator, type TranslatorLimits } from './mqtt5-translator.js';
import { SocketPassage } from './socket-passage.js';

const VERSION_5 = 5;

/** DISCONNECT with the reason 0x87, not authorised [MQTT5-3.14.2.1]. 3.1.1 has none that a broker sends. */
const NOT_AUTHORISED = Uint8Array.of(0xe0, 2, 0x87, 0);

export class ClientConnection extends SocketPassage {
  readonly #limits: TranslatorLimits;
  readonly #arriving: PacketAligner;
  readonly #leaving: PacketAligner;
  #translator: Mqtt5Translator | undefined;
  #begun = false;
  #versionKnown = false;

  constructor(socket: Socket, limits: TranslatorLimits) {
    super(socket);
    this.#limits = limits;
    this.#arriving = new PacketAligner(limits.packet_bytes);
    this.#leaving = new PacketAligner(Number.POSITIVE_INFINITY);
  }

  protected override inwards(chunk: Buffer): Buffer | undefined {
    if (!this.#begun) this.#begin(chunk);
    const row = this.#arriving.align(chunk);
    if (row === undefined) return undefined;
    if (!this.#versionKnown) this.#learnVersion(row);
    const translator = this.#translator;
    if (translator === undefined) return row;
    return Buffer.concat([...packetsOf(row)].map((packet) => translator.toBroker(packet)));
  }

  protected override outwards(chunk: Buffer): Buffer | undefined {
    const translator = this.#translator;
    if (translator === undefined) return chunk;
    const row = this.#leaving.align(chunk);
    if (row === undefined) return undefined;
    return Buffer.concat([...packetsOf(row)].map((packet) => translator.toClient(packet)));
  }

  /** Where it was refused what it did, a client of MQTT 5 hears so before the end. */
  protected override farewell(error: Error | null): Uint8Array | undefined {
    const isRefused = error instanceof SandlarderError && error.code === 'FORBIDDEN';
    return isRefused && this.#translator !== undefined ? NOT_AUTHORISED : undefined;
  }

  /** The first packet must be a CONNECT [MQTT-3.1.0-1]: whatever else calls is not kept waiting. */
  #begin(chunk: Buffer): void {
    const type = (chunk[0] ?? 0) >> 4;
    if (type !== PACKET_TYPE.CONNECT)
      throw new SandlarderError('BAD_MESSAGE', `expected a CONNECT first, got packet type ${type}`);
    this.#begun = true;
  }

  #learnVersion(row: Buffer): void {
    for (const { body } of packetsOf(row)) {
      const fields = new ByteReader(body);
      fields.lengthAndText();
      if (fields.byte() === VERSION_5) this.#translator = new Mqtt5Translator(this.#limits);
      this.#versionKnown = true;
      return;
    }
  }
}
