/** A modem under test: the device is scripted, the line in memory, the time stands still. */
import type { ReceivedMessage } from '../../../services/senders/gsm/inbox.js';
import { Modem, type ModemOptions } from '../../../services/senders/gsm/modem.js';
import type { StatusReport } from '../../../services/senders/gsm/pdu-status-report.js';
import type { ModemEvent, ModemState, ModemStatus } from '../../../services/senders/gsm/status.js';
import { ManualTimer } from '../manual-timer.js';
import { passUntil, portTo, quiet } from './memory-line.js';
import { deliver } from './network-side.js';
import { ScriptedModem } from './scripted-modem.js';

export const AT = Date.parse('2026-05-24T15:00:07Z');
export const KEEPER = '+46701234567';
export const PART = Object.freeze({ coding: 'gsm-7', text: 'Pit A: dig at 40 cm' } as const);

export const message = (text: string, header?: string): string =>
  deliver({ from: KEEPER, text, at: AT, ...(header !== undefined && { header }) });

export class ModemBench {
  readonly timer = new ManualTimer(AT);
  readonly device = new ScriptedModem();
  readonly states: ModemStatus[] = [];
  readonly received: ReceivedMessage[] = [];
  readonly reports: StatusReport[] = [];
  readonly log: ModemEvent[] = [];
  /** Each port that was opened: calling it tears the modem out. */
  readonly ports: (() => void)[] = [];
  /** What the receiver does with a message. */
  takes: () => Promise<void> = async () => undefined;
  #modem: Modem | undefined;

  get modem(): Modem {
    if (!this.#modem) throw new Error('expected a modem that was begun');
    return this.#modem;
  }

  async close(): Promise<void> {
    await this.#modem?.close();
  }

  begin(otherwise: Partial<ModemOptions> = {}): void {
    this.#modem = new Modem({
      open: async () => {
        const port = portTo(this.device);
        this.ports.push(() => port.stream.destroy());
        return port;
      },
      timer: this.timer,
      random: () => 0.5,
      onState: (status) => this.states.push(status),
      onReceived: async (received) => {
        this.received.push(received);
        await this.takes();
      },
      onReport: (report) => this.reports.push(report),
      log: (event) => this.log.push(event),
      ...otherwise,
    });
    this.#modem.start();
  }

  async inState(state: ModemState): Promise<void> {
    await passUntil(this.timer, state, () => this.modem.status.state === state);
  }

  async registered(otherwise: Partial<ModemOptions> = {}): Promise<void> {
    this.begin(otherwise);
    await this.inState('registered');
    await quiet();
  }

  names(): ModemState[] {
    return this.states.map(({ state }) => state);
  }
}
