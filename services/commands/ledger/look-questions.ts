/** A look, asked for at the bed in the order in which it is had: a line each, and Enter for what is usual. */
import {
  HAND_WARMTHS,
  OUT_REASONS,
  ROOT_STATES,
  SAND_FEELS,
  SMELLS,
} from '../../core/model/inspection-detail.js';
import type { Say } from '../say.js';
import { given } from './flags.js';
import type { LookFlags } from './look-flags.js';

/** Puts one question; answers '' where nobody answers. */
export type Ask = (question: string) => Promise<string>;

/** A question is put three times at the most, so that it comes to an end. */
const TIMES = 3;

class Asking {
  readonly #ask: Ask;
  readonly #say: Say;

  constructor(ask: Ask, say: Say) {
    this.#ask = ask;
    this.#say = say;
  }

  /** @returns what was read; the usual where Enter was pressed, or nothing was understood */
  async #until<Value>(
    question: string,
    expected: string,
    read: (text: string) => Value | undefined,
    usual: Value,
  ): Promise<Value> {
    for (let time = 0; time < TIMES; time += 1) {
      const text = (await this.#ask(question)).trim().toLowerCase();
      if (text === '') return usual;
      const value = read(text);
      if (value !== undefined) return value;
      this.#say(`  expected ${expected}`);
    }
    return usual;
  }

  yes(question: string, usual: boolean): Promise<boolean> {
    return this.#until(
      `${question} [${usual ? 'Y/n' : 'y/N'}] `,
      'y or n',
      (text) => (/^y(es)?$/.test(text) ? true : /^no?$/.test(text) ? false : undefined),
      usual,
    );
  }

  /** By a word or its beginning. */
  word(question: string, words: readonly string[], usual: string): Promise<string> {
    return this.#until(
      `${question} (${words.join(', ')}) [${usual}] `,
      words.join(' or '),
      (text) => words.find((word) => word === text) ?? words.find((word) => word.startsWith(text)),
      usual,
    );
  }

  count(question: string): Promise<string> {
    return this.#until(
      `${question} [0] `,
      'a whole number',
      (text) => (/^\d{1,7}$/.test(text) ? text : undefined),
      '0',
    );
  }

  outs(): Promise<readonly string[]> {
    return this.#until<readonly string[]>(
      `Roots that come out, and where to, such as "eaten 10, thrown 2 rotten" (${OUT_REASONS.join(', ')}) [none] `,
      `such as eaten 10, thrown 2 rotten; where to is ${OUT_REASONS.join(', ')}; how they were is ${ROOT_STATES.join(', ')}`,
      readOuts,
      [],
    );
  }

  text(question: string): Promise<string> {
    return this.#until<string>(`${question} [nothing] `, 'a line', (text) => text, '');
  }
}

const ONE_OUT = /^(\w+)[ :]+(\d{1,7})(?:[ :]+(\w+))?$/;

function readOuts(text: string): string[] | undefined {
  const outs = text.split(',').map((part) => {
    const [, reason = '', roots = '', were] = ONE_OUT.exec(part.trim()) ?? [];
    const knows =
      (OUT_REASONS as readonly string[]).includes(reason) &&
      (were === undefined || (ROOT_STATES as readonly string[]).includes(were));
    return knows ? [reason, roots, ...(were === undefined ? [] : [were])].join(':') : undefined;
  });
  return outs.every((one) => one !== undefined) ? outs : undefined;
}

/**
 * @param flags who it is, where that was given
 * @returns flags as if they had been given; undefined where nobody says who it is
 */
export async function lookAsked(flags: LookFlags, ask: Ask, say: Say): Promise<LookFlags | undefined> {
  const by = flags.by ?? (await ask('Who looks? ')).trim();
  if (by === '') return undefined;
  const asking = new Asking(ask, say);
  const warm = await asking.word('A hand in the sand, against the ground beside it?', HAND_WARMTHS, 'same');
  const smell = await asking.word('Smell?', SMELLS, 'fresh');
  const sand = await asking.word('Sand?', SAND_FEELS, 'dry');
  const senses = { ...flags, by, warm, smell, sand };
  if (!(await asking.yes('Is the bed opened?', true))) return { ...senses, closed: true };
  const counts = await countsAsked(asking);
  const out = await asking.outs();
  const repacked = await asking.yes('Are the roots packed anew?', false);
  const did = await asking.text('What was done?');
  return {
    ...{ ...senses, ...counts, repacked },
    ...given({ out: out.length > 0 ? out : undefined, did: did === '' ? undefined : did }),
  };
}

/** What was not looked at was not counted. */
async function countsAsked(asking: Asking): Promise<Partial<LookFlags>> {
  const looked = await asking.count('How many roots are looked at?');
  if (looked === '0') return {};
  return {
    looked,
    rotten: await asking.count('  rotten or mouldy?'),
    weevil: await asking.count('  with weevils or their tunnels?'),
    rodent: await asking.count('  gnawed by rats or mice?'),
    termite: await asking.count('  eaten by termites?'),
    sproutsShort: await asking.count('  with short sprouts, up to a thumbnail?'),
    sproutsLong: await asking.count('  with longer sprouts?'),
  };
}
