/** A serial line that is no device: two pseudo-terminals joined by socat, with a scripted modem on the far one. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SerialPort } from 'serialport';
import type { ScriptedModem } from './scripted-modem.js';

export class PtyPair {
  /** The program's end: a name that stays, as one below /dev/serial/by-id does. */
  readonly path: string;
  readonly #folder = mkdtempSync(join(tmpdir(), 'modem-line-'));
  readonly #device: ScriptedModem;
  #socat: ChildProcess | undefined;
  #far: SerialPort | undefined;

  constructor(device: ScriptedModem) {
    this.#device = device;
    this.path = join(this.#folder, 'modem');
  }

  /** Plugs the modem in. */
  async plug(): Promise<void> {
    const farPath = join(this.#folder, 'far');
    const ends = [this.path, farPath].map((link) => `pty,raw,echo=0,link=${link}`);
    const socat = spawn('socat', ['-d', '-d', ...ends], { stdio: ['ignore', 'ignore', 'pipe'] });
    this.#socat = socat;
    await started(socat);
    const far = new SerialPort({ path: farPath, baudRate: 115_200, autoOpen: false, lock: false });
    far.on('error', () => undefined);
    far.on('data', (chunk: Buffer) => this.#device.feed(chunk.toString('latin1')));
    await new Promise<void>((resolve, reject) => {
      far.open((error) => (error ? reject(error) : resolve()));
    });
    this.#far = far;
    this.#device.write = (text) => this.writeRaw(text);
  }

  /** Writes what the modem says, as it is. */
  writeRaw(text: string): void {
    if (this.#far?.isOpen) this.#far.write(Buffer.from(text, 'latin1'));
  }

  /** Tears the modem out, whatever is on the line. */
  async tearOut(): Promise<void> {
    this.#device.write = () => undefined;
    const socat = this.#socat;
    if (socat && socat.exitCode === null && socat.signalCode === null) {
      socat.kill('SIGKILL');
      await once(socat, 'exit');
    }
    const far = this.#far;
    this.#far = undefined;
    if (far?.isOpen) await new Promise<void>((resolve) => far.close(() => resolve()));
    for (const link of ['modem', 'far']) rmSync(join(this.#folder, link), { force: true });
  }

  async dispose(): Promise<void> {
    await this.tearOut();
    rmSync(this.#folder, { recursive: true, force: true });
  }
}

/** Resolves when socat says that it passes data. */
function started(socat: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    let said = '';
    socat.once('error', reject);
    socat.once('exit', () => reject(new Error(`expected socat to start, got ${said}`)));
    socat.stderr?.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      if (said.includes('starting data transfer loop')) resolve();
    });
  });
}
