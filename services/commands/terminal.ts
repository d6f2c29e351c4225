/** Questions to whoever sits at the terminal. */
import { createInterface, type Interface } from 'node:readline';
import { SandlarderError } from '../core/errors.js';
import type { Say } from './say.js';

/** Puts one question; answers '' where it is left open. */
export type Ask = (question: string) => Promise<string>;

/** A question is put three times at the most, so that it comes to an end. */
export const TIMES = 3;

/**
 * Puts a question until its answer is understood.
 *
 * @param read of an answer that is not empty, without blanks around it; undefined where it is not understood
 * @returns undefined where it is left open, or not understood three times
 */
export async function askUntil<Value>(
  question: string,
  expected: string,
  read: (text: string) => Value | undefined,
  { ask, say }: { readonly ask: Ask; readonly say: Say },
): Promise<Value | undefined> {
  for (let time = 0; time < TIMES; time += 1) {
    const text = (await ask(question)).trim();
    if (text === '') return undefined;
    const value = read(text);
    if (value !== undefined) return value;
    say(`  expected ${expected}`);
  }
  return undefined;
}

interface Waiting {
  readonly resolve: (line: string) => void;
  readonly reject: (error: Error) => void;
}

/** One reader for all questions, so that what was typed ahead, or pasted, is not lost. */
export class Terminal {
  readonly #output: NodeJS.WritableStream;
  readonly #reader: Interface;
  readonly #ahead: string[] = [];
  #waiting: Waiting | undefined;
  #ended = false;

  constructor(input: NodeJS.ReadableStream, output: NodeJS.WritableStream) {
    this.#output = output;
    this.#reader = createInterface({ input, output });
    this.#reader.on('line', (line) => this.#take(line));
    this.#reader.on('SIGINT', () => this.#reader.close());
    this.#reader.on('close', () => this.#end());
  }

  /** @throws SandlarderError WRONG_USAGE where the input ends before an answer */
  async ask(question: string): Promise<string> {
    const ahead = this.#ahead.shift();
    if (ahead !== undefined) {
      this.#output.write(`${question}${ahead}\n`);
      return ahead;
    }
    if (this.#ended) throw noAnswer();
    this.#reader.setPrompt(question);
    this.#reader.prompt();
    return new Promise((resolve, reject) => {
      this.#waiting = { resolve, reject };
    });
  }

  #take(line: string): void {
    const waiting = this.#waiting;
    if (!waiting) {
      this.#ahead.push(line);
      return;
    }
    this.#waiting = undefined;
    // So that the program can end once nothing more is asked.
    this.#reader.pause();
    waiting.resolve(line);
  }

  #end(): void {
    this.#ended = true;
    this.#waiting?.reject(noAnswer());
    this.#waiting = undefined;
  }
}

const noAnswer = (): SandlarderError =>
  new SandlarderError('WRONG_USAGE', 'expected an answer, got the end of the input: nothing was kept');

let terminal: Terminal | undefined;

const askOnTerminal: Ask = (question) => {
  terminal ??= new Terminal(process.stdin, process.stdout);
  return terminal.ask(question);
};

/** Who is there to be asked; undefined where nobody is. */
export const onTerminal = (): Ask | undefined =>
  process.stdin.isTTY && process.stdout.isTTY ? askOnTerminal : undefined;
