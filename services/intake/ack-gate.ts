/**
 * Stands between an MQTT client library and its socket and holds each PUBACK back until it is released.
 *
 * The library acknowledges a message as soon as it has handed it on, and goes on reading; the broker sees the
 * acknowledgement only when what it stands for is kept. (The library's own way to wait, `handleMessage`, stops it
 * from reading further, which makes every message a commit of its own.) Every other packet passes at once.
 *
 * A gate lives as long as its connection: what it still holds at the end was never acknowledged, and the broker
 * sends it again [MQTT-4.4.0-1].
 */
import type { Socket } from 'node:net';
import { PACKET_TYPE, PacketAligner, packetsOf } from './mqtt-packets.js';
import { SocketPassage } from './socket-passage.js';

export class AckGate extends SocketPassage {
  readonly #arriving: PacketAligner;
  readonly #leaving = new PacketAligner(Number.POSITIVE_INFINITY);
  /** PUBACKs by packet id, whole. */
  readonly #held = new Map<number, Buffer>();
  /** Released before the library had written the PUBACK. */
  readonly #released = new Set<number>();
  #leavingNow: Buffer[] = [];

  /** @param longest_bytes longest packet taken from the broker */
  constructor(socket: Socket, longest_bytes: number) {
    super(socket);
    this.#arriving = new PacketAligner(longest_bytes);
  }

  /** PUBACKs held. */
  get held(): number {
    return this.#held.size;
  }

  /** Lets the PUBACK of a packet go, now or as soon as it comes. Of no effect once the connection has ended. */
  release(packetId: number): void {
    if (this.destroyed) return;
    const packet = this.#held.get(packetId);
    if (packet === undefined) {
      this.#released.add(packetId);
      return;
    }
    this.#held.delete(packetId);
    if (this.#leavingNow.length === 0) queueMicrotask(() => this.#send());
    this.#leavingNow.push(packet);
  }

  /** Those released in one go leave in one piece. */
  #send(): void {
    const packets = this.#leavingNow;
    this.#leavingNow = [];
    if (!this.destroyed) this.network.write(Buffer.concat(packets));
  }

  protected override inwards(chunk: Buffer): Buffer | undefined {
    return this.#arriving.align(chunk);
  }

  protected override outwards(chunk: Buffer): Buffer | undefined {
    const row = this.#leaving.align(chunk);
    if (row === undefined) return undefined;
    const passing: Buffer[] = [];
    for (const packet of packetsOf(row)) {
      if (packet.type !== PACKET_TYPE.PUBACK || this.#isReleased(packet.body)) passing.push(packet.whole);
      else this.#held.set(packet.body.readUInt16BE(0), packet.whole);
    }
    return passing.length > 0 ? Buffer.concat(passing) : undefined;
  }

  #isReleased(body: Buffer): boolean {
    return this.#released.delete(body.readUInt16BE(0));
  }
}
