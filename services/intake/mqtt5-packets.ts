/** Packets whose two forms, of MQTT 5 and of 3.1.1, differ by themselves: nothing need be known of the connection. */
import { SandlarderError } from '../core/errors.js';
import { ByteReader } from './byte-reader.js';
import { makePacket, type Packet } from './mqtt-packets.js';

const NO_PROPERTIES = Uint8Array.of(0);
const QOS_BITS = 0x03;

/** A normal end: the will is dropped [MQTT5-3.14.2.1]. Any other reason leaves it to be sent. */
const NORMAL_DISCONNECTION = 0x00;

const qosOf = (firstByte: number): number => (firstByte >> 1) & QOS_BITS;

/** Without its properties. */
export function publishToBroker({ firstByte, body }: Packet): Buffer {
  const fields = new ByteReader(body);
  const topic = fields.lengthAndText();
  const id = qosOf(firstByte) > 0 ? fields.take(2) : Buffer.alloc(0);
  fields.properties();
  return makePacket(firstByte, topic, id, fields.rest());
}

/** With no properties. */
export function publishToClient({ firstByte, body }: Packet): Buffer {
  const fields = new ByteReader(body);
  const topic = fields.lengthAndText();
  const id = qosOf(firstByte) > 0 ? fields.take(2) : Buffer.alloc(0);
  return makePacket(firstByte, topic, id, NO_PROPERTIES, fields.rest());
}

/** Failure [MQTT-3.9.3], which the broker answers to what is not allowed; not authorised [MQTT5-3.9.3]. */
const FAILURE = 0x80;
const NOT_AUTHORISED = 0x87;

/** A SUBACK, with no properties. */
export function subackToClient({ firstByte, body }: Packet): Buffer {
  const fields = new ByteReader(body);
  const id = fields.take(2);
  const reasons = fields.rest().map((code) => (code === FAILURE ? NOT_AUTHORISED : code));
  return makePacket(firstByte, id, NO_PROPERTIES, reasons);
}

/** Of a subscription's options 3.1.1 knows the QoS only [MQTT5-3.8.3.1]. */
export function subscribeToBroker({ firstByte, body }: Packet): Buffer {
  const fields = new ByteReader(body);
  const parts: Uint8Array[] = [fields.take(2)];
  fields.properties();
  while (!fields.isAtEnd) parts.push(fields.lengthAndText(), Uint8Array.of(fields.byte() & QOS_BITS));
  return makePacket(firstByte, ...parts);
}

/** @throws SandlarderError BAD_MESSAGE where the client wants its will sent: the connection must end without more */
export function disconnectToBroker({ firstByte, body }: Packet): Buffer {
  const reason = body[0] ?? NORMAL_DISCONNECTION;
  if (reason !== NORMAL_DISCONNECTION)
    throw new SandlarderError('BAD_MESSAGE', `the client left with reason ${reason}: its will is sent`);
  return makePacket(firstByte);
}

/** An acknowledgement of any kind, without reason and properties. */
export function acknowledgementToBroker({ firstByte, body }: Packet): Buffer {
  return makePacket(firstByte, new ByteReader(body).take(2));
}

/** Texts that fill the bytes. */
export function countTexts(bytes: Buffer): number {
  const fields = new ByteReader(bytes);
  let count = 0;
  for (; !fields.isAtEnd; count += 1) fields.lengthAndText();
  return count;
}
