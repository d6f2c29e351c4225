/** The serial port of a modem. The one place that opens it; everything else works on any duplex stream. */
import type { Duplex } from 'node:stream';
import { SandlarderError } from '../../core/errors.js';
import { oneLine } from '../one-line.js';

export interface OpenPort {
  readonly stream: Duplex;
  /** Resolves when the port can be opened again; never rejects. */
  close(): Promise<void>;
}

export interface PortSettings {
  /** Such as /dev/ttyUSB0, or better a name below /dev/serial/by-id that stays. */
  readonly path: string;
  /** Bits a second, such as 115200. */
  readonly baudRate: number;
}

/** @throws SandlarderError RECEIVER_UNAVAILABLE where the port is not there or in use */
export async function openSerialPort({ path, baudRate }: PortSettings): Promise<OpenPort> {
  // Read where there is a modem alone.
  const { SerialPort } = await import('serialport');
  return new Promise((resolve, reject) => {
    const stream = new SerialPort({ path, baudRate, autoOpen: false });
    // A port that is torn out says so here and at `close`: without a listener it would end the process.
    stream.on('error', () => undefined);
    const close = (): Promise<void> =>
      new Promise((done) => {
        if (stream.isOpen) stream.close(() => done());
        else done();
      });
    stream.open((error) => {
      if (!error) return resolve({ stream, close });
      const reason = `modem: expected the serial port ${path} to open, got ${oneLine(error.message, 200)}`;
      reject(new SandlarderError('RECEIVER_UNAVAILABLE', reason, { cause: error }));
    });
  });
}
