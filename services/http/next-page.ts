/** A link to the next page of a list (RFC 8288): the same question, going on after the last that was given. */
export function nextPageLink(target: string, lastId: string): string {
  const [path = '', query = ''] = target.split('?', 2);
  const asked = new URLSearchParams(query);
  asked.set('after', lastId);
  return `<${path}?${asked}>; rel="next"`;
}
