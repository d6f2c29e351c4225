/** A stream that stands in front of a socket and may look at, hold back or rewrite what passes each way. */
import type { Socket } from 'node:net';
import { Duplex } from 'node:stream';

/** Buffered each way before the sender is held up, bytes. */
const BUFFER_bytes = 256 * 1024;

/** What passes on for what came; undefined for nothing yet. May throw: the connection then ends with that error. */
export type Passing = (chunk: Buffer) => Buffer | undefined;

export abstract class SocketPassage extends Duplex {
  protected readonly network: Socket;

  constructor(socket: Socket) {
    super({ readableHighWaterMark: BUFFER_bytes, writableHighWaterMark: BUFFER_bytes, allowHalfOpen: false });
    this.network = socket;
    socket.on('data', (chunk: Buffer) => this.#receive(chunk));
    socket.on('end', () => this.push(null));
    socket.on('error', (error) => this.destroy(error));
    socket.on('close', () => this.destroy());
  }

  /** From the network inwards. */
  protected abstract inwards(chunk: Buffer): Buffer | undefined;

  /** From inside to the network. */
  protected abstract outwards(chunk: Buffer): Buffer | undefined;

  /** Bytes for the network before the end; none where there is nothing to say. */
  protected farewell(_error: Error | null): Uint8Array | undefined {
    return undefined;
  }

  #receive(chunk: Buffer): void {
    if (this.destroyed) return;
    const passed = this.#guard(() => this.inwards(chunk));
    if (passed !== undefined && !this.destroyed && !this.push(passed)) this.network.pause();
  }

  #guard(pass: () => Buffer | undefined): Buffer | undefined {
    try {
      return pass();
    } catch (error) {
      this.destroy(error as Error);
      return undefined;
    }
  }

  override _read(): void {
    this.network.resume();
  }

  override _write(chunk: Buffer, _encoding: BufferEncoding, done: (error?: Error | null) => void): void {
    const passed = this.#guard(() => this.outwards(chunk));
    if (passed === undefined) done();
    else this.network.write(passed, done);
  }

  /** What was written in one turn leaves in one piece. */
  override _writev(chunks: { chunk: Buffer }[], done: (error?: Error | null) => void): void {
    this._write(Buffer.concat(chunks.map(({ chunk }) => chunk)), 'binary' as BufferEncoding, done);
  }

  override _final(done: () => void): void {
    this.network.end(done);
  }

  override _destroy(error: Error | null, done: (error: Error | null) => void): void {
    const last = this.farewell(error);
    if (last === undefined) this.network.destroy();
    else {
      this.network.write(last);
      this.network.destroySoon();
    }
    done(error);
  }
}
