/** Reads what the program writes as CAP: elements without attributes, text or elements in each. For tests only. */

export interface Read {
  readonly name: string;
  readonly text: string;
  readonly children: readonly Read[];
}

const REFERENCES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"' };

const withoutReferences = (text: string): string =>
  text.replace(/&(\w+);/g, (_, name: string) => REFERENCES[name] ?? `?${name}?`);

function readAll(text: string): Read[] {
  const found: Read[] = [];
  for (const [, name = '', inner = ''] of text.matchAll(/<(\w+)(?: xmlns="[^"]*")?>(.*?)<\/\1>/gs))
    found.push({ name, text: withoutReferences(inner), children: readAll(inner) });
  return found;
}

export function readCap(xml: string): Read {
  const [alert] = readAll(xml);
  if (!alert) throw new Error('no element');
  return alert;
}

/** The elements of a name below one. */
export const all = ({ children }: Read, name: string): readonly Read[] =>
  children.filter((child) => child.name === name);

/** The text of the one element on a path such as `info/area/areaDesc`; undefined where there is none. */
export function textAt(root: Read, path: string): string | undefined {
  let place: Read | undefined = root;
  for (const name of path.split('/')) place = place && all(place, name)[0];
  return place?.text;
}

/** `valueName` to `value` of the pairs of a kind. */
export const pairsOf = (info: Read, name: string): Record<string, string> =>
  Object.fromEntries(
    all(info, name).map((pair) => [textAt(pair, 'valueName') ?? '', textAt(pair, 'value') ?? '']),
  );
