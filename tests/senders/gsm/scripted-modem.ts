/** A modem that does as a test says. It speaks over any pair of functions: in memory, or on a pseudo-terminal. */
import { readSubmit, type Submitted } from './network-side.js';

/** What a test may do in the place of the usual: lines to answer, or nothing to be silent. */
export type Override = (command: string) => readonly string[] | undefined;

const OK = ['OK'] as const;
const unescaped = (text: string): string => text.slice(text.lastIndexOf('\x1b') + 1);

export class ScriptedModem {
  /** Writes to the line: set by whoever joins it to one. */
  write: (text: string) => void = () => undefined;
  echo = false;
  silent = false;
  /** As +CPIN shows it; undefined for no card. */
  sim: string | undefined = 'READY';
  pin = '1234';
  pinTries = 3;
  registration = 1;
  rssi = 20;
  takesPdu = true;
  takesUcs2 = true;
  service = 0;
  /** What AT+CNMI takes. */
  indications = (_: string): boolean => true;
  /** By memory, by index. */
  readonly storage: Record<string, Map<number, { stat: number; pdu: string }>> = {
    SM: new Map(),
    SR: new Map(),
  };
  keepsDeleted = false;
  /** Before the usual; returning undefined leaves it to that. An empty list is silence. */
  override: Override = () => undefined;
  /** What becomes of a message: its result lines; empty for silence. */
  onMessage: (message: string) => readonly string[] | undefined = () => undefined;
  readonly commands: string[] = [];
  readonly accepted: Submitted[] = [];
  readonly acceptedTexts: string[] = [];
  textMode = false;
  #reference = 0;
  #rest = '';
  #memory = 'SM';
  #prompting = false;
  #address = '';

  /** Takes in what was written to the modem. */
  feed(text: string): void {
    for (const character of text) {
      if (this.#prompting) this.#feedMessage(character);
      else if (character === '\r') {
        const command = unescaped(this.#rest);
        this.#rest = '';
        this.#command(command);
      } else this.#rest += character;
    }
  }

  /** Says lines, each set in line ends. */
  say(...lines: readonly string[]): void {
    for (const line of lines) this.write(`\r\n${line}\r\n`);
  }

  store(pdu: string, memory = 'SM'): number {
    const messages = this.storage[memory] ?? new Map();
    const index = Math.max(0, ...messages.keys()) + 1;
    messages.set(index, { stat: 0, pdu });
    return index;
  }

  #feedMessage(character: string): void {
    if (character !== '\x1a' && character !== '\x1b') {
      this.#rest += character;
      return;
    }
    const message = this.#rest;
    this.#rest = '';
    this.#prompting = false;
    if (this.echo) this.write(`${message}${character}`);
    if (character === '\x1b') this.#answer(OK);
    else this.#answer(this.onMessage(message) ?? this.accept(message));
  }

  /** Takes a message as the network would: the usual result lines. */
  accept(message: string): readonly string[] {
    this.#reference = (this.#reference + 1) & 0xff;
    if (this.textMode) this.acceptedTexts.push(`${this.#address}:${message}`);
    else this.accepted.push(readSubmit(message));
    return [`+CMGS: ${this.#reference}`, 'OK'];
  }

  #command(command: string): void {
    if (command === '') return;
    this.commands.push(command);
    if (this.echo) this.write(`${command}\r`);
    const special = this.override(command);
    if (special) this.#answer(special);
    else if (command.startsWith('AT+CMGS=')) this.#prompt(command);
    else this.#answer(this.#usual(command));
  }

  #prompt(command: string): void {
    if (this.silent) return;
    this.#address = command.slice('AT+CMGS='.length).replaceAll('"', '');
    this.#prompting = true;
    this.write('\r\n> ');
  }

  #answer(lines: readonly string[]): void {
    if (!this.silent) this.say(...lines);
  }

  #usual(command: string): readonly string[] {
    const [, name = '', set = ''] = /^AT\+?([A-Z]*)(?:=(.*))?/.exec(command) ?? [];
    const answers: Readonly<Record<string, () => readonly string[]>> = {
      CPIN: () => this.#cardAnswer(command, set),
      CPINR: () => [`+CPINR: SIM PIN,${this.pinTries}`, 'OK'],
      CREG: () => (command.endsWith('?') ? [`+CREG: 1,${this.registration}`, 'OK'] : OK),
      CEREG: () => ['ERROR'],
      CSQ: () => [`+CSQ: ${this.rssi},99`, 'OK'],
      CMGF: () => this.#mode(set),
      CSCS: () => (this.takesUcs2 || set !== '"UCS2"' ? OK : ['ERROR']),
      CNMI: () => (this.indications(set) ? OK : ['+CMS ERROR: 303']),
      CPMS: () => this.#select(set),
      CMGL: () => [...this.#list(), 'OK'],
      CMGR: () => this.#read(Number(set)),
      CMGD: () => this.#delete(Number(set)),
    };
    return answers[name]?.() ?? OK;
  }

  #cardAnswer(command: string, set: string): readonly string[] {
    if (this.sim === undefined) return ['+CME ERROR: 10'];
    if (command === 'AT+CPIN?') return [`+CPIN: ${this.sim}`, 'OK'];
    if (set === `"${this.pin}"`) {
      this.sim = 'READY';
      return OK;
    }
    this.pinTries -= 1;
    if (this.pinTries === 0) this.sim = 'SIM PUK';
    return ['+CME ERROR: 16'];
  }

  #mode(set: string): readonly string[] {
    if (set === '0' && !this.takesPdu) return ['+CMS ERROR: 303'];
    this.textMode = set === '1';
    return OK;
  }

  #select(set: string): readonly string[] {
    if (set === '') return [`+CPMS: "${this.#memory}",0,30,"SM",0,30,"SM",0,30`, 'OK'];
    const memory = set.replaceAll('"', '');
    if (!this.storage[memory]) return ['+CMS ERROR: 302'];
    this.#memory = memory;
    return OK;
  }

  get #messages(): Map<number, { stat: number; pdu: string }> {
    return this.storage[this.#memory] ?? new Map();
  }

  #list(): string[] {
    return [...this.#messages].flatMap(([index, { stat, pdu }]) => [`+CMGL: ${index},${stat},,24`, pdu]);
  }

  #read(index: number): readonly string[] {
    const message = this.#messages.get(index);
    return message ? [`+CMGR: ${message.stat},,24`, message.pdu, 'OK'] : OK;
  }

  #delete(index: number): readonly string[] {
    if (this.keepsDeleted) return ['+CMS ERROR: 320'];
    this.#messages.delete(index);
    return OK;
  }
}
