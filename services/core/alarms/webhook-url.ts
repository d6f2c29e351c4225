/** The address of a webhook: what can be used and what cannot. */

/** Characters at the most: longer ones are cut by proxies on the way. */
export const WEBHOOK_URL_LENGTH = 2000;

/** What keeps a text from being the address of a webhook; undefined where nothing does. */
export function webhookProblem(text: string): string | undefined {
  if (!(text.length <= WEBHOOK_URL_LENGTH))
    return `expected a URL of at most ${WEBHOOK_URL_LENGTH} characters, got ${text.length}`;
  if (!URL.canParse(text)) return 'expected a URL such as https://example.org/alarms';
  const { protocol, username, password } = new URL(text);
  if (protocol !== 'http:' && protocol !== 'https:') return `expected http or https, got ${protocol}`;
  // fetch refuses such an address (Fetch Standard, "includes credentials"), and it would show in logs.
  if (username !== '' || password !== '') return 'expected a URL without user and password';
  return undefined;
}
