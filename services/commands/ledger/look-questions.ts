/** A look, asked for at the bed in the order in which it is had: a line each, and Enter for what is usual. */
import {
  HAND_WARMTHS,
  INSPECTION_LIMITS,
  OUT_REASONS,
  ROOT_STATES,
  SAND_FEELS,
  SMELLS,
} from '../../core/model/inspection-detail.js';
import type { Say } from '../say.js';
import { type Ask, askUntil, TIMES } from '../terminal.js';
import { given } from './flags.js';
import type { LookFlags } from './look-flags.js';

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
    read: (lower: string, text: string) => Value | undefined,
    usual: Value,
  ): Promise<Value> {
    const surroundings = { ask: this.#ask, say: this.#say };
    const value = await askUntil(question, expected, (text) => read(text.toLowerCase(), text), surroundings);
    return value ?? usual;
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

  /** @param most of how many it can be, where that is known */
  count(question: string, most: number = INSPECTION_LIMITS.roots): Promise<string> {
    const known = most < INSPECTION_LIMITS.roots;
    return this.#until(
      `${question} [0] `,
      known ? `at most the ${most} roots that were looked at` : 'a whole number',
      (text) => (/^\d{1,7}$/.test(text) && Number(text) <= most ? text : undefined),
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

  /** A name has no usual one. @returns '' where none was given */
  async name(question: string): Promise<string> {
    for (let time = 0; time < TIMES; time += 1) {
      const text = (await this.#ask(question)).trim();
      if (text !== '') return text;
      this.#say('  expected a name');
    }
    return '';
  }

  text(question: string): Promise<string> {
    return this.#until<string>(`${question} [nothing] `, 'a line', (_, text) => text, '');
  }
}

const ONE_OUT = /^(\w+)[ :]+(\d{1,7})(?:[ :]+(\w+))?$/;
const NONE_OUT = /^(0|no|none|nothing)$/;

/** As it is said, `eaten 10, thrown 2 rotten`, or as by flags, `eaten:10 thrown:2:rotten`. */
function readOuts(text: string): string[] | undefined {
  if (NONE_OUT.test(text)) return [];
  const outs = text.split(text.includes(':') ? /[,\s]+/ : ',').map((part) => {
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
  const asking = new Asking(ask, say);
  const by = flags.by ?? (await asking.name('Who looks? '));
  if (by === '') return undefined;
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
  const ofThese = (question: string): Promise<string> => asking.count(`  ${question}`, Number(looked));
  return {
    looked,
    rotten: await ofThese('rotten or mouldy?'),
    weevil: await ofThese('with weevils or their tunnels?'),
    rodent: await ofThese('gnawed by rats or mice?'),
    termite: await ofThese('eaten by termites?'),
    sproutsShort: await ofThese('with short sprouts, up to a thumbnail?'),
    sproutsLong: await ofThese('with longer sprouts?'),
  };
}
