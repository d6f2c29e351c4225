/**
 * Takes messages out of a modem so that none is lost: a message is removed from the storage only when the receiver
 * has it. One that the receiver cannot take stays, and is given again.
 */
import { inTime } from '../in-time.js';
import type { Timer } from '../ports.js';
import { reasonOf } from '../verdict.js';
import type { AtChannel } from './at-channel.js';
import { type Deliver, decodeReceived } from './pdu-deliver.js';
import type { StatusReport } from './pdu-status-report.js';
import { type Assembled, Reassembly, type ReassemblyLimits } from './reassembly.js';
import { tolerant } from './registration.js';
import type { ModemLog } from './status.js';
import type { Place, Storage, Stored } from './storage.js';

export interface ReceivedMessage {
  /** International number with its plus sign, other number, or a name. */
  readonly from: string;
  readonly text: string;
  /** When the service centre had it, ms; undefined where it did not say. */
  readonly sentAt: number | undefined;
  /** False where parts had not come in time: each gap shows as three dots. */
  readonly complete: boolean;
}

export interface InboxOptions {
  readonly timer: Timer;
  /** Resolves when the message is safe. One may come twice: after a crash, or a storage that would not forget it. */
  readonly onReceived: (message: ReceivedMessage) => Promise<void>;
  readonly onReport: (report: StatusReport) => void;
  readonly log: ModemLog;
  readonly limits?: Partial<InboxLimits>;
}

export interface InboxLimits extends ReassemblyLimits {
  /** For the receiver to take a message, ms: keeps a hanging one from holding up the modem. */
  readonly receive_ms: number;
}

const RECEIVE_ms = 30_000;

/** Messages whose removal failed and that are remembered so as not to be given again. */
const MOST_TAKEN = 500;

export class Inbox {
  readonly #options: InboxOptions;
  readonly #reassembly: Reassembly;
  readonly #receive_ms: number;
  /** By place: what was read there and is not yet with the receiver. */
  readonly #contents = new Map<string, string>();
  /** By place: what lay there when it was given to the receiver, while it is not known to be gone. */
  readonly #taken = new Map<string, string>();

  constructor(options: InboxOptions) {
    this.#options = options;
    this.#reassembly = new Reassembly(options.limits);
    this.#receive_ms = options.limits?.receive_ms ?? RECEIVE_ms;
  }

  /** Call when the port was opened anew: another card may be in the modem. */
  begin(): void {
    this.#reassembly.forgetStored();
  }

  /** Takes in what lies in the storage: all of it, or what is at some places. */
  async takeStored(storage: Storage, places: readonly Place[] | 'all'): Promise<void> {
    const found = places === 'all' ? [await storage.list()] : [];
    if (places !== 'all') for (const place of places) found.push(await storage.read(place));
    for (const stored of found.flat()) await this.#sort(storage, stored);
    await this.#giveDue(storage);
  }

  /**
   * Takes in a message that is not stored; `takeStored` then gives it to the receiver. Parts of a long one are
   * acknowledged at once, as the network holds back the next until then; until it is whole it is in memory alone.
   *
   * @param acknowledge whether the modem waits for AT+CNMA
   */
  async takeDirect(channel: AtChannel, pdu: string, acknowledge: boolean): Promise<void> {
    const received = this.#decode(pdu);
    if (received?.type === 'status-report') this.#report(received);
    else if (received?.text !== undefined) {
      const whole = received.concatenation === undefined;
      if (acknowledge && whole) {
        // Not acknowledged, the network brings it again.
        if (!(await this.#give({ ...received, text: received.text, complete: true }))) return;
      } else this.#reassembly.add(received, undefined, this.#options.timer.now());
    }
    if (acknowledge) await tolerant(channel, 'AT+CNMA');
  }

  /** Gives the receiver what is whole, or has waited long enough for its missing parts. */
  async #giveDue(storage: Storage): Promise<void> {
    for (const message of this.#reassembly.due(this.#options.timer.now())) {
      if (!(await this.#give(message))) continue;
      this.#reassembly.done(message.key);
      for (const place of message.places) this.#markTaken(place);
      for (const place of message.places) await this.#remove(storage, place);
    }
  }

  async #sort(storage: Storage, { place, content }: Stored): Promise<void> {
    const key = placeKey(place);
    const asText = JSON.stringify(content);
    if (this.#taken.get(key) === asText) return this.#remove(storage, place);
    this.#taken.delete(key);
    const received = typeof content === 'string' ? this.#decode(content) : content;
    if (received?.type === 'deliver' && received.text !== undefined) {
      this.#contents.set(key, asText);
      this.#reassembly.add(received, place, this.#options.timer.now());
      return;
    }
    if (received?.type === 'status-report') this.#report(received);
    await this.#remove(storage, place);
  }

  /** Before anything is removed: the port may go away in between. */
  #markTaken(place: Place): void {
    const content = this.#contents.get(placeKey(place));
    if (content !== undefined && this.#taken.size < MOST_TAKEN) this.#taken.set(placeKey(place), content);
  }

  async #remove(storage: Storage, place: Place): Promise<void> {
    if (!(await storage.delete(place))) return;
    this.#contents.delete(placeKey(place));
    this.#taken.delete(placeKey(place));
  }

  #report(report: StatusReport): void {
    try {
      this.#options.onReport(report);
    } catch (error) {
      this.#options.log({ type: 'modem-trouble', error: reasonOf(error) });
    }
  }

  #decode(pdu: string): Deliver | StatusReport | undefined {
    try {
      const received = decodeReceived(pdu);
      if (received.type === 'deliver' && received.text === undefined)
        this.#unreadable(pdu, 'expected text, got octets');
      return received;
    } catch (error) {
      this.#unreadable(pdu, reasonOf(error));
      return undefined;
    }
  }

  #unreadable(pdu: string, error: string): void {
    this.#options.log({ type: 'modem-unreadable', pdu, error });
  }

  async #give({ from, text, sentAt, complete }: Omit<Assembled, 'key' | 'places'>): Promise<boolean> {
    const { timer, onReceived, log } = this.#options;
    try {
      const given = Promise.resolve().then(() => onReceived({ from, text, sentAt, complete }));
      await inTime(given, timer, this.#receive_ms, () => {
        throw new Error(`expected the message to be taken within ${this.#receive_ms} ms, got no answer`);
      });
      return true;
    } catch (error) {
      log({ type: 'modem-message-kept', error: reasonOf(error) });
      return false;
    }
  }
}

const placeKey = ({ memory, index }: Place): string => `${memory}/${index}`;
