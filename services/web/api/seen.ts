/** What was last seen, and what the service says now. */
import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import type { Language } from '../../core/model/languages.js';
import { language, PAGE_LANGUAGES } from '../words/language.js';
import { ask, NoNetwork, Refusal } from './client.js';
import { type LiveKind, onLive } from './live.js';
import { networkChanged } from './network.js';
import { store } from './store.js';

/** Answers kept on the device, at the most: the oldest go first. */
const MOST_KEPT = 300;

export interface SeenAnswer<Answer> {
  /** Undefined until it is there. */
  readonly answer: Answer | undefined;
  /** When the service said so, wall clock, ms. */
  readonly seenAt: number | undefined;
  /** Where it was seen in another language than the page is read in: which. */
  readonly seenIn: Language | undefined;
  /** A question is on its way. */
  readonly asking: boolean;
  /** Why the last question was refused. */
  readonly refusal: Refusal | undefined;
  /** The service did not answer the last question. */
  readonly away: boolean;
  /** Asks anew. */
  again(): void;
}

type State<Answer> = Omit<SeenAnswer<Answer>, 'again'>;

const EMPTY = {
  answer: undefined,
  seenAt: undefined,
  seenIn: undefined,
  asking: true,
  refusal: undefined,
  away: false,
} as const;

export interface Following {
  /** Ask again at these events of the stream. */
  readonly live?: readonly LiveKind[];
  /** Only where they concern this bed. */
  readonly bed?: string;
}

/**
 * What is at an address of the service: at once as this device last saw it, then as the service says; asked again
 * when the stream tells of a change and when the service is back.
 *
 * @param path undefined asks nothing
 */
export function useSeen<Answer>(
  path: string | undefined,
  { live = [], bed }: Following = {},
): SeenAnswer<Answer> {
  const [state, setState] = useState<State<Answer>>(EMPTY);
  const asked = useRef(0);
  const again = useCallback(() => {
    if (path === undefined) return;
    const turn = ++asked.current;
    const isLast = (): boolean => turn === asked.current;
    setState((before) => ({ ...before, asking: true }));
    askAndKeep<Answer>(path).then(
      (answer) => {
        if (isLast()) setState({ ...EMPTY, answer, seenAt: Date.now(), asking: false });
      },
      async (error: unknown) => {
        const kept = error instanceof NoNetwork ? await lastSeen<Answer>(path) : undefined;
        if (!isLast()) return;
        setState((before) => ({
          ...before,
          ...(before.answer === undefined ? kept : undefined),
          ...{ asking: false, ...whatFailed(error) },
        }));
      },
    );
  }, [path]);
  useEffect(() => {
    setState(EMPTY);
    if (path === undefined) return undefined;
    let isShown = true;
    seenHere<Answer>(path).then((kept) => {
      // Also where it was asked again meanwhile: it is shown until the service has answered.
      if (kept && isShown)
        setState((before) => (before.answer === undefined ? { ...before, ...kept } : before));
    });
    again();
    const stopLive = onLive(live, again, bed);
    const stopNetwork = networkChanged.hear(({ answers }) => {
      if (answers) again();
    });
    return () => {
      isShown = false;
      asked.current += 1;
      stopLive();
      stopNetwork();
    };
  }, [path, again, live.join(' '), bed]);
  return { ...state, again };
}

const whatFailed = (error: unknown): { refusal: Refusal | undefined; away: boolean } => ({
  refusal: error instanceof Refusal ? error : undefined,
  away: error instanceof NoNetwork,
});

/** An address that names the language names the other one there. */
const keyOf = (path: string, code: Language = language()): string =>
  `${code} ${path.replace(/([?&]language=)[a-z]+/, `$1${code}`)}`;

/** Asks, and keeps the answer on the device. Throws as `ask`. */
export async function askAndKeep<Answer>(path: string): Promise<Answer> {
  const answer = await ask<Answer>(path);
  keep({ path: keyOf(path), answer, seenAt: Date.now() }).catch(() => undefined);
  return answer;
}

interface Kept<Answer> {
  readonly answer: Answer;
  readonly seenAt: number;
  readonly seenIn: Language | undefined;
}

/** An answer as it was last seen on this device in the language of the page. */
const seenHere = <Answer>(path: string): Promise<Kept<Answer> | undefined> =>
  seenAs<Answer>(path, language());

/** The same; where it was not seen in this language, the newest of those in others. */
export async function lastSeen<Answer>(path: string): Promise<Kept<Answer> | undefined> {
  const here = await seenHere<Answer>(path);
  if (here) return here;
  const others = PAGE_LANGUAGES.filter((code) => code !== language());
  const found = await Promise.all(others.map((code) => seenAs<Answer>(path, code)));
  return found.reduce((best, one) => (one && !(best && best.seenAt >= one.seenAt) ? one : best), undefined);
}

async function seenAs<Answer>(path: string, code: Language): Promise<Kept<Answer> | undefined> {
  try {
    const kept = await (await store()).get('seen', keyOf(path, code));
    const seenIn = code === language() ? undefined : code;
    return kept && { answer: kept.answer as Answer, seenAt: kept.seenAt, seenIn };
  } catch {
    return undefined;
  }
}

async function keep(seen: { path: string; answer: unknown; seenAt: number }): Promise<void> {
  const database = await store();
  await database.put('seen', seen);
  const surplus = (await database.count('seen')) - MOST_KEPT;
  if (surplus <= 0) return;
  const oldest = await database.getAllKeysFromIndex('seen', 'seenAt', undefined, surplus);
  for (const key of oldest) await database.delete('seen', key);
}
