/** A command channel under test: a line in memory on which a test says what the modem says. */
import { Duplex } from 'node:stream';
import { AtChannel, type AtLimits } from '../../../services/senders/gsm/at-channel.js';
import type { AtError } from '../../../services/senders/gsm/at-error.js';
import type { Unsolicited } from '../../../services/senders/gsm/unsolicited.js';
import { ManualTimer } from '../manual-timer.js';
import { quiet } from './memory-line.js';

export class ChannelBench {
  readonly timer = new ManualTimer(0);
  readonly events: Unsolicited[] = [];
  /** All that the modem was given. */
  written = '';
  readonly port = new Duplex({
    read: () => undefined,
    write: (chunk: Buffer, _encoding, done) => {
      this.written += chunk.toString('latin1');
      done();
    },
  });

  open(limits: Partial<AtLimits> = {}): AtChannel {
    const { port, timer } = this;
    return new AtChannel({ port, timer, limits, onUnsolicited: (event) => this.events.push(event) });
  }

  /** Each piece comes by itself. */
  async say(...pieces: readonly (string | Buffer)[]): Promise<void> {
    await quiet();
    for (const piece of pieces) {
      this.port.push(typeof piece === 'string' ? Buffer.from(piece, 'latin1') : piece);
      await quiet();
    }
  }
}

/** How a command has ended by now: its lines, or the error. */
export function ending(promise: Promise<readonly string[]>): { of?: readonly string[] | AtError } {
  const box: { of?: readonly string[] | AtError } = {};
  promise.then(
    (lines) => Object.assign(box, { of: lines }),
    (error) => Object.assign(box, { of: error }),
  );
  return box;
}
