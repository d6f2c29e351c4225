/** An entry of a site description with the version it was read at, and what changes it by that version. */
import { useCallback, useEffect, useState } from 'preact/hooks';
import { askWhole, NoNetwork, Refusal } from '../api/client.js';
import type { SeenAnswer } from '../api/seen.js';
import type { Changed } from '../api/types/site.js';

export interface Entry<Content> {
  readonly content: Content;
  /** Its version, as the service names it; absent for what is new. */
  readonly tag: string | undefined;
}

type Read<Content> = Omit<SeenAnswer<Entry<Content>>, 'again'>;

const ASKING = {
  answer: undefined,
  seenAt: undefined,
  seenIn: undefined,
  asking: true,
  refusal: undefined,
  away: false,
} as const;

/** Reads an entry when the page is opened, and when it is asked for again: never under the hands of who types. */
export function useEntry<Content>(path: string): SeenAnswer<Entry<Content>> {
  const [read, setRead] = useState<Read<Content>>(ASKING);
  const again = useCallback(() => {
    setRead(ASKING);
    readEntry<Content>(path).then(
      (answer) => setRead({ ...ASKING, answer, seenAt: Date.now(), asking: false }),
      (error: unknown) =>
        setRead({
          ...{ ...ASKING, asking: false, away: error instanceof NoNetwork },
          refusal: error instanceof Refusal ? error : undefined,
        }),
    );
  }, [path]);
  useEffect(again, [again]);
  return { ...read, again };
}

/** @throws Refusal, NoNetwork */
export async function readEntry<Content>(path: string): Promise<Entry<Content>> {
  const { answer, headers } = await askWhole<Content>(path);
  return { content: answer, tag: headers.get('etag') ?? undefined };
}

/** Says which version is changed, or that it is new. */
export const versionHeader = (tag: string | undefined): Record<string, string> =>
  tag === undefined ? { 'if-none-match': '*' } : { 'if-match': tag };

/**
 * Puts an entry, whole.
 *
 * @param tag of the version it was read at; undefined for what is new
 * @throws Refusal (412 where somebody else changed it meanwhile), NoNetwork
 */
export async function putEntry<Content>(
  path: string,
  tag: string | undefined,
  body: unknown,
): Promise<Changed<Content>> {
  const { answer } = await askWhole<Changed<Content>>(path, {
    ...{ method: 'PUT', body, headers: versionHeader(tag) },
  });
  return answer;
}

/** Keys whose value is undefined are left out: a description does not know them. */
export function withoutGaps<Content extends object>(content: Content): Content {
  return Object.fromEntries(Object.entries(content).filter(([, value]) => value !== undefined)) as Content;
}
