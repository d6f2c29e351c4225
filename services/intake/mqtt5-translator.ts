/**
 * Lets a client of MQTT 5 speak to a broker of MQTT 3.1.1: takes each packet of the one form into the other.
 *
 * What 3.1.1 cannot say is either announced as not available (topic aliases, subscription identifiers, shared
 * subscriptions, sessions that outlive the connection: all in the CONNACK) or dropped (user properties, expiry,
 * content type: nothing in the contract uses them). A client with its own authentication method is refused.
 */
import { randomUUID } from 'node:crypto';
import { SandlarderError } from '../core/errors.js';
import { ByteReader } from './byte-reader.js';
import { makePacket, PACKET_TYPE, type Packet, writeVariableNumber } from './mqtt-packets.js';
import {
  acknowledgementToBroker,
  countTexts,
  disconnectToBroker,
  publishToBroker,
  publishToClient,
  subackToClient,
  subscribeToBroker,
} from './mqtt5-packets.js';

const VERSION_3_1_1 = 4;

/** Property identifiers [MQTT5-2.2.2.2]. */
const PROPERTY = {
  SESSION_EXPIRY: 0x11,
  ASSIGNED_CLIENT_ID: 0x12,
  AUTHENTICATION_METHOD: 0x15,
  RECEIVE_MAXIMUM: 0x21,
  MAXIMUM_PACKET_SIZE: 0x27,
  SUBSCRIPTION_IDENTIFIERS: 0x29,
  SHARED_SUBSCRIPTIONS: 0x2a,
} as const;

/** CONNACK return code [MQTT-3.2.2.3] to reason code [MQTT5-3.2.2.2]. */
const REASON_OF_RETURN_CODE: readonly number[] = [0x00, 0x84, 0x85, 0x88, 0x86, 0x87];
const UNSPECIFIED_ERROR = 0x80;

/** UNSUBSCRIBEs that may wait for their answer: 3.1.1 does not say there how many filters it answers. */
const WAITING_UNSUBSCRIBES = 100;

const WILL_FLAG = 0x04;

export interface TranslatorLimits {
  readonly packet_bytes: number;
  readonly inflight_messages: number;
}

export class Mqtt5Translator {
  readonly #limits: TranslatorLimits;
  #assignedId: Buffer | undefined;
  readonly #filtersOfUnsubscribe = new Map<number, number>();

  constructor(limits: TranslatorLimits) {
    this.#limits = limits;
  }

  /**
   * From the client to the broker.
   *
   * @returns the packet for the broker
   * @throws SandlarderError BAD_MESSAGE where the packet is malformed or has no counterpart: the connection must end
   */
  toBroker(packet: Packet): Buffer {
    switch (packet.type) {
      case PACKET_TYPE.CONNECT:
        return this.#connect(packet);
      case PACKET_TYPE.PUBLISH:
        return publishToBroker(packet);
      case PACKET_TYPE.PUBACK:
      case PACKET_TYPE.PUBREC:
      case PACKET_TYPE.PUBREL:
      case PACKET_TYPE.PUBCOMP:
        return acknowledgementToBroker(packet);
      case PACKET_TYPE.SUBSCRIBE:
        return subscribeToBroker(packet);
      case PACKET_TYPE.UNSUBSCRIBE:
        return this.#unsubscribe(packet);
      case PACKET_TYPE.DISCONNECT:
        return disconnectToBroker(packet);
      case PACKET_TYPE.PINGREQ:
        return packet.whole;
      default:
        throw new SandlarderError('BAD_MESSAGE', `expected a packet of a client, got type ${packet.type}`);
    }
  }

  /** From the broker to the client. */
  toClient(packet: Packet): Buffer {
    switch (packet.type) {
      case PACKET_TYPE.CONNACK:
        return this.#connack(packet);
      case PACKET_TYPE.PUBLISH:
        return publishToClient(packet);
      case PACKET_TYPE.SUBACK:
        return subackToClient(packet);
      case PACKET_TYPE.UNSUBACK:
        return this.#unsuback(packet);
      default:
        return packet.whole;
    }
  }

  #connect({ firstByte, body }: Packet): Buffer {
    const fields = new ByteReader(body);
    const protocolName = fields.lengthAndText();
    fields.byte();
    const flags = fields.byte();
    const keepAlive = fields.take(2);
    refuseAuthenticationMethod(fields.properties());
    const clientId = this.#clientId(fields.lengthAndText());
    if (flags & WILL_FLAG) fields.properties();
    const start = Uint8Array.of(VERSION_3_1_1, flags);
    return makePacket(firstByte, protocolName, start, keepAlive, clientId, fields.rest());
  }

  /** A client without an id gets one, and is told it [MQTT5-3.1.3-7]. */
  #clientId(sent: Buffer): Buffer {
    if (sent.length > 2) return sent;
    this.#assignedId = lengthAndText(`assigned-${randomUUID()}`);
    return this.#assignedId;
  }

  #connack({ firstByte, body }: Packet): Buffer {
    const fields = new ByteReader(body);
    const flags = fields.byte();
    const reason = REASON_OF_RETURN_CODE[fields.byte()] ?? UNSPECIFIED_ERROR;
    const properties = reason === 0 ? this.#offers() : Buffer.alloc(0);
    const length = writeVariableNumber(properties.length);
    return makePacket(firstByte, Uint8Array.of(flags, reason, ...length), properties);
  }

  #offers(): Buffer {
    const { inflight_messages, packet_bytes } = this.#limits;
    const offers = Buffer.concat([
      property(PROPERTY.SESSION_EXPIRY, 4, 0),
      property(PROPERTY.RECEIVE_MAXIMUM, 2, inflight_messages),
      property(PROPERTY.MAXIMUM_PACKET_SIZE, 4, packet_bytes),
      property(PROPERTY.SUBSCRIPTION_IDENTIFIERS, 1, 0),
      property(PROPERTY.SHARED_SUBSCRIPTIONS, 1, 0),
    ]);
    if (this.#assignedId === undefined) return offers;
    return Buffer.concat([offers, Uint8Array.of(PROPERTY.ASSIGNED_CLIENT_ID), this.#assignedId]);
  }

  #unsubscribe({ firstByte, body }: Packet): Buffer {
    const fields = new ByteReader(body);
    const id = fields.take(2);
    fields.properties();
    const filters = fields.rest();
    if (this.#filtersOfUnsubscribe.size >= WAITING_UNSUBSCRIBES)
      throw new SandlarderError(
        'BAD_MESSAGE',
        `expected at most ${WAITING_UNSUBSCRIBES} UNSUBSCRIBEs waiting for their answer, got more`,
      );
    this.#filtersOfUnsubscribe.set(id.readUInt16BE(0), countTexts(filters));
    return makePacket(firstByte, id, filters);
  }

  /** In MQTT 5 an UNSUBACK has a reason for each filter [MQTT5-3.11.3]. */
  #unsuback({ firstByte, body }: Packet): Buffer {
    const id = new ByteReader(body).take(2);
    const filters = this.#filtersOfUnsubscribe.get(id.readUInt16BE(0)) ?? 1;
    this.#filtersOfUnsubscribe.delete(id.readUInt16BE(0));
    return makePacket(firstByte, id, NO_PROPERTIES, Buffer.alloc(filters));
  }
}

const NO_PROPERTIES = Uint8Array.of(0);

function property(id: number, length: number, value: number): Buffer {
  const bytes = Buffer.alloc(1 + length, id);
  bytes.writeUIntBE(value, 1, length);
  return bytes;
}

function lengthAndText(text: string): Buffer {
  const bytes = Buffer.from(`\0\0${text}`);
  bytes.writeUInt16BE(bytes.length - 2);
  return bytes;
}

/** Of a CONNECT's properties only the authentication method changes what the broker must do [MQTT5-4.12]. */
function refuseAuthenticationMethod(properties: Buffer): void {
  if (hasConnectProperty(properties, PROPERTY.AUTHENTICATION_METHOD))
    throw new SandlarderError('BAD_MESSAGE', 'expected user and password, got an authentication method');
}

/** Bytes of each property that a CONNECT may have [MQTT5-3.1.2.11]; the others are texts. */
const FIXED_CONNECT_PROPERTY: Readonly<Record<number, number>> = {
  17: 4,
  23: 1,
  25: 1,
  33: 2,
  34: 2,
  39: 4,
};
const USER_PROPERTY = 0x26;

function hasConnectProperty(properties: Buffer, wanted: number): boolean {
  const fields = new ByteReader(properties);
  while (!fields.isAtEnd) {
    const id = fields.byte();
    if (id === wanted) return true;
    const length = FIXED_CONNECT_PROPERTY[id];
    if (length !== undefined) fields.take(length);
    else fields.lengthAndText();
    if (id === USER_PROPERTY) fields.lengthAndText();
  }
  return false;
}
