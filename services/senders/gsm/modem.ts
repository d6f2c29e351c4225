/**
 * A modem on a serial port, kept going: port, SIM card and network may each be lost and found at any time.
 *
 * It looks after itself in rounds: card, set-up, network, signal, storage. Messages are sent between the commands of
 * a round. Every trouble ends in one of the states; nothing that a modem does or leaves undone throws.
 */
import { SandlarderError } from '../../core/errors.js';
import { type Backoff, waitAfter_ms } from '../backoff.js';
import { reasonOf } from '../verdict.js';
import { AtChannel, type AtLimits } from './at-channel.js';
import { AtError } from './at-error.js';
import { Inbox, type InboxLimits, type InboxOptions } from './inbox.js';
import { sendingOf } from './message-mode.js';
import type { OpenPort } from './port.js';
import { readRegistration, readSignal } from './registration.js';
import type { Part } from './segments.js';
import { Session } from './session.js';
import { Sim } from './sim.js';
import type { ModemStatus } from './status.js';
import type { Unsolicited } from './unsolicited.js';
import { Waiting } from './waiting.js';

export interface ModemLimits {
  /** Between rounds while messages go, ms. */
  readonly round_ms: number;
  /** Between rounds while something is missing, ms. */
  readonly search_ms: number;
  /** Between readings of the whole storage, ms: what was told of is read at once. */
  readonly sweep_ms: number;
  /** Before the port is opened again. */
  readonly reopen: Backoff;
  /** Rounds in a row that end in silence until the modem is reset. */
  readonly silentRounds: number;
  /** How long the service centre tries to deliver, minutes. */
  readonly validity_min: number;
}

export const MODEM_LIMITS: ModemLimits = {
  round_ms: 30_000,
  search_ms: 5000,
  sweep_ms: 5 * 60_000,
  reopen: { first_ms: 1000, longest_ms: 60_000 },
  silentRounds: 3,
  validity_min: 24 * 60,
};

export interface ModemOptions extends Omit<InboxOptions, 'limits'> {
  readonly open: () => Promise<OpenPort>;
  readonly pin?: string | undefined;
  /** In [0, 1), as Math.random: spreads the waits. */
  readonly random: () => number;
  readonly onState: (status: ModemStatus) => void;
  readonly limits?: Partial<ModemLimits & AtLimits & InboxLimits>;
}

const DEAF = 'This modem sends plain text only: messages that come are not read.';

export class Modem {
  readonly #options: ModemOptions;
  readonly #limits: ModemLimits;
  readonly #sim: Sim;
  readonly #inbox: Inbox;
  /** Between rounds. */
  readonly #waiting: Waiting;
  /** Until the port is opened again: only `close` cuts it short. */
  readonly #reopening: Waiting;
  #status: ModemStatus = { state: 'starting' };
  #session: Session | undefined;
  #failures = 0;
  #closing = false;
  #running: Promise<void> | undefined;

  constructor(options: ModemOptions) {
    this.#options = options;
    this.#limits = Object.freeze({ ...MODEM_LIMITS, ...options.limits });
    this.#sim = new Sim(options.pin);
    this.#inbox = new Inbox(options);
    this.#waiting = new Waiting(options.timer);
    this.#reopening = new Waiting(options.timer);
  }

  get status(): ModemStatus {
    return this.#status;
  }

  /** Goes on until `close`. */
  start(): void {
    this.#running ??= this.#run();
  }

  /** Gives the port back. Messages on their way are rejected. */
  async close(): Promise<void> {
    this.#closing = true;
    this.#session?.channel.close();
    this.#waiting.wake();
    this.#reopening.wake();
    await this.#running;
    this.#set({ state: 'lost', note: 'The port was given back.' });
  }

  /**
   * Sends one part and waits until the network has accepted it.
   *
   * @returns TP-Message-Reference, 0 to 255, under which a status report will come
   * @throws SandlarderError RECEIVER_UNAVAILABLE while there is no network; AtError where the modem or the network
   * refuses, is silent, or goes away: then the message may have gone nevertheless
   */
  async send(to: string, part: Part): Promise<number> {
    const session = this.#session;
    if (!session?.mode || this.#status.state !== 'registered') throw this.#unavailable();
    const { select, command, message } = sendingOf(session.mode.form, to, part, this.#limits.validity_min);
    try {
      // Set before each message: a modem that has restarted by itself would take the length for a number.
      await session.channel.command(select);
      const lines = await session.channel.command(command, { expect: '+CMGS:', message });
      return referenceOf(lines);
    } catch (error) {
      if (error instanceof AtError && error.failure === 'silent') session.suspect = true;
      this.#waiting.wake();
      throw error;
    }
  }

  #unavailable(): SandlarderError {
    const { state, note } = this.#status;
    const reason = `modem: expected to be registered, got ${state}${note ? `: ${note}` : ''}`;
    return new SandlarderError('RECEIVER_UNAVAILABLE', reason);
  }

  #set(status: ModemStatus): void {
    const { state, signal_dBm, note } = this.#status;
    const same = status.state === state && status.signal_dBm === signal_dBm && status.note === note;
    this.#status = status;
    if (same) return;
    try {
      this.#options.onState(status);
    } catch (error) {
      this.#trouble(error);
    }
  }

  #trouble(error: unknown): void {
    this.#options.log({ type: 'modem-trouble', error: reasonOf(error) });
  }

  async #run(): Promise<void> {
    const { open, random } = this.#options;
    while (!this.#closing) {
      try {
        await this.#serve(await open());
      } catch (error) {
        if (this.#closing) return;
        this.#trouble(error);
        this.#set({ state: 'lost', note: reasonOf(error) });
      }
      this.#failures += 1;
      if (!this.#closing)
        await this.#reopening.wait(waitAfter_ms(this.#failures, random(), this.#limits.reopen));
    }
  }

  async #serve(port: OpenPort): Promise<void> {
    const session = this.#begin(port);
    void session.channel.closed.then(() => this.#waiting.wake());
    try {
      let silent = 0;
      while (!this.#closing) {
        await this.#wake(session, silent);
        silent = await this.#rounds(session, silent);
      }
    } finally {
      this.#session = undefined;
      session.channel.close();
      await port.close();
    }
  }

  #begin({ stream }: OpenPort): Session {
    const { timer, limits } = this.#options;
    const onUnsolicited = (event: Unsolicited): void => this.#told(session, event);
    const channel = new AtChannel({ port: stream, timer, onUnsolicited, ...(limits && { limits }) });
    const session = new Session(channel);
    this.#session = session;
    this.#inbox.begin();
    return session;
  }

  /** Brings the modem to where it answers; where it does not, resets it and throws. */
  async #wake(session: Session, silent: number): Promise<void> {
    this.#set({ state: 'starting' });
    session.forgetSetUp();
    session.suspect = false;
    const { channel } = session;
    if (silent >= this.#limits.silentRounds || !(await channel.wake())) {
      this.#options.log({ type: 'modem-reset' });
      await channel.reset();
      throw new SandlarderError('RECEIVER_UNAVAILABLE', 'modem: expected answers, got none: it is reset');
    }
    this.#failures = 0;
  }

  /** Rounds until one meets silence: returns how many in a row did. */
  async #rounds(session: Session, silent: number): Promise<number> {
    let inARow = silent;
    try {
      await session.begin();
      while (!this.#closing && !session.suspect) {
        const wait_ms = await this.#round(session);
        inARow = 0;
        if (!session.suspect) await this.#waiting.wait(wait_ms);
      }
      return inARow;
    } catch (error) {
      if (!(error instanceof AtError && error.failure === 'silent')) throw error;
      this.#trouble(error);
      return inARow + 1;
    }
  }

  /** @returns ms until the next */
  async #round(session: Session): Promise<number> {
    const { round_ms, search_ms, sweep_ms, validity_min } = this.#limits;
    const { channel } = session;
    const sim = await this.#sim.read(channel);
    if (sim !== 'ready') {
      session.forgetSetUp();
      this.#set(sim);
      return search_ms;
    }
    if (!(await session.setUp(validity_min))) {
      this.#set({ state: 'starting', note: 'The modem is not yet ready for messages.' });
      return search_ms;
    }
    const { registered, note } = await readRegistration(channel);
    const signal_dBm = await readSignal(channel);
    const state = registered ? 'registered' : 'searching';
    const said = note ?? (session.mode?.form === 'text-gsm' ? DEAF : undefined);
    this.#set({
      state,
      ...(signal_dBm !== undefined && { signal_dBm }),
      ...(said !== undefined && { note: said }),
    });
    await session.takeIn(this.#inbox, this.#options.timer.now(), sweep_ms);
    return registered ? round_ms : search_ms;
  }

  #told(session: Session, event: Unsolicited): void {
    if (event.type === 'ring') return;
    session.told(event);
    if (event.type === 'sim') this.#set({ state: 'starting' });
    this.#waiting.wake();
  }
}

function referenceOf(lines: readonly string[]): number {
  const [, digits] = lines.map((line) => /^\+CMGS: ?([0-9]+)/.exec(line)).find((match) => match) ?? [];
  return Number(digits ?? 0) & 0xff;
}
