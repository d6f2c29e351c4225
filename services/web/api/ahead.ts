/** Answers that were asked for before the part of the page that needs them is there. */

/** An answer that nobody fetched for so long is old, ms. */
const FRESH_ms = 10_000;

const early = new Map<string, Promise<unknown>>();

/** Keeps an answer under way for the first who asks for it. */
export function keepAhead(path: string, answer: Promise<unknown>): void {
  early.set(path, answer);
  // Whoever takes it hears of its failure.
  answer.catch(() => undefined);
  setTimeout(() => early.delete(path), FRESH_ms);
}

/** The answer under way, once; undefined where nobody asked ahead. */
export function takeAhead(path: string): Promise<unknown> | undefined {
  const answer = early.get(path);
  early.delete(path);
  return answer;
}
