/** The SIM card and its PIN: AT+CPIN, 3GPP TS 27.007 section 8.3. */
import type { AtChannel } from './at-channel.js';
import { AtError } from './at-error.js';
import type { ModemStatus } from './status.js';

/** +CME ERROR: TS 27.007 section 9.2.1 (from memory). */
const PIN_REQUIRED = 11;
const PUK_REQUIRED = 12;
const BUSY = 14;

/** Tries that a card must have left before the PIN is given: one is for a person. */
const LEAST_TRIES = 2;

/** 'ready', or the state in which the modem is without a usable card. */
export type SimState = 'ready' | ModemStatus;

export class Sim {
  readonly #pin: string | undefined;
  /** A card locks itself after three wrong PINs: so one that was given and not taken is not given again. */
  #refused = false;

  constructor(pin: string | undefined) {
    this.#pin = pin;
  }

  /** Reads how the card stands, and gives its PIN where it asks. Throws AtError where the modem is silent or gone. */
  async read(channel: AtChannel): Promise<SimState> {
    const said = await this.#ask(channel);
    if (said === 'READY') {
      this.#refused = false;
      return 'ready';
    }
    if (said === 'SIM PIN') return this.#unlock(channel);
    if (said === 'BUSY') return { state: 'starting', note: 'The SIM is busy.' };
    if (/^(?:SIM|PH-)/.test(said)) return { state: 'pin-needed', note: `The SIM asks for ${said}.` };
    return { state: 'no-sim', note: 'No SIM, or one that cannot be read.' };
  }

  async #ask(channel: AtChannel): Promise<string> {
    try {
      const lines = await channel.command('AT+CPIN?', { expect: '+CPIN:' });
      return /^\+CPIN: ?(.*)$/.exec(lines.find((line) => line.startsWith('+CPIN:')) ?? '')?.[1] ?? '';
    } catch (error) {
      if (!(error instanceof AtError && error.failure === 'refused')) throw error;
      if (error.cme === PIN_REQUIRED) return 'SIM PIN';
      if (error.cme === PUK_REQUIRED) return 'SIM PUK';
      return error.cme === BUSY ? 'BUSY' : '';
    }
  }

  async #unlock(channel: AtChannel): Promise<ModemStatus> {
    const needed = (note: string): ModemStatus => ({ state: 'pin-needed', note });
    if (this.#pin === undefined) return needed('The SIM asks for its PIN, and none is set.');
    if (this.#refused) return needed('The SIM has refused the PIN that is set: it is not tried again.');
    const left = await triesLeft(channel);
    if (!(left >= LEAST_TRIES))
      return needed('The SIM has one try left for its PIN: enter it in a telephone first.');
    this.#refused = true;
    try {
      await channel.command(`AT+CPIN="${this.#pin}"`);
    } catch (error) {
      if (!(error instanceof AtError && error.failure === 'refused')) throw error;
      return needed('The SIM has refused the PIN that is set: it is not tried again.');
    }
    this.#refused = false;
    return { state: 'starting', note: 'The SIM has taken its PIN.' };
  }
}

/** AT+CPINR, TS 27.007 section 8.65: not every modem has it; then as many as a card has at first. */
async function triesLeft(channel: AtChannel): Promise<number> {
  try {
    const lines = await channel.command('AT+CPINR="SIM PIN"', { expect: '+CPINR:' });
    const match = lines
      .map((line) => /^\+CPINR: ?"?SIM PIN"? ?, ?([0-9]+)/.exec(line))
      .find((found) => found !== null);
    return match ? Number(match[1]) : 3;
  } catch (error) {
    if (error instanceof AtError && error.failure === 'refused') return 3;
    throw error;
  }
}
