/** A modem as long as its port is open: what it is set up for, and what it has told and nobody has taken in yet. */
import type { AtChannel } from './at-channel.js';
import { AtError } from './at-error.js';
import type { Inbox } from './inbox.js';
import { type MessageMode, setUpMessages } from './message-mode.js';
import { tolerant } from './registration.js';
import { type Place, Storage } from './storage.js';
import type { Unsolicited } from './unsolicited.js';

/** Things told of and not yet taken in; more wait in the storage for the next sweep. */
const MOST_WAITING = 200;

/** Results without echo and with numbers, changes of the network told of. A modem need not know them all. */
const FIRST_COMMANDS = ['ATE0', 'AT+CMEE=1', 'AT+CREG=1', 'AT+CEREG=1'];

export class Session {
  readonly channel: AtChannel;
  /** A message has met silence. */
  suspect = false;
  #mode: MessageMode | undefined;
  #storage: Storage | undefined;
  #places: Place[] = [];
  #direct: string[] = [];
  #sweptAt = Number.NEGATIVE_INFINITY;

  constructor(channel: AtChannel) {
    this.channel = channel;
  }

  /** Undefined until the modem is set up for messages. */
  get mode(): MessageMode | undefined {
    return this.#mode;
  }

  /** A card that comes or goes, or a modem that has restarted, knows nothing of its set-up. */
  forgetSetUp(): void {
    this.#mode = undefined;
    this.#storage = undefined;
    this.#sweptAt = Number.NEGATIVE_INFINITY;
  }

  async begin(): Promise<void> {
    for (const command of FIRST_COMMANDS) await tolerant(this.channel, command);
  }

  /** False while the modem is not ready for messages. Throws AtError where it is silent or gone. */
  async setUp(validity_min: number): Promise<boolean> {
    if (this.#mode) return true;
    try {
      this.#mode = await setUpMessages(this.channel, validity_min);
      this.#storage = new Storage(this.channel, this.#mode.form);
      return true;
    } catch (error) {
      if (error instanceof AtError && error.failure === 'refused') return false;
      throw error;
    }
  }

  told(event: Unsolicited): void {
    if (event.type === 'sim') this.forgetSetUp();
    if (event.type === 'stored' && this.#places.length < MOST_WAITING)
      this.#places.push({ memory: event.memory, index: event.index });
    const direct = event.type === 'message' || event.type === 'report';
    if (direct && this.#direct.length < MOST_WAITING) this.#direct.push(event.pdu);
  }

  /** Takes in what was told of; and all that is stored, where that was not done for `sweep_ms`. */
  async takeIn(inbox: Inbox, now: number, sweep_ms: number): Promise<void> {
    const storage = this.#storage;
    if (!storage) return;
    const acknowledge = this.#mode?.acknowledge ?? false;
    for (const pdu of this.#direct.splice(0)) await inbox.takeDirect(this.channel, pdu, acknowledge);
    // Set back, a clock must not put the sweep off.
    const sweep = !(Math.abs(now - this.#sweptAt) < sweep_ms);
    const places = this.#places.splice(0);
    await inbox.takeStored(storage, sweep ? 'all' : places);
    if (sweep && this.#storage === storage) this.#sweptAt = now;
  }
}
