/** Sets a value within a description, or takes it out of it. */

type Part = Readonly<Record<string, unknown>>;

/**
 * A copy with the value at its path; undefined takes it out, and with it what is empty then.
 *
 * @param path such as `['telling', 'storm', 'alarms']`
 */
export function withSetting<Content extends object>(
  content: Content,
  path: readonly string[],
  value: unknown,
): Content {
  return set(content as Part, path, value) as Content;
}

function set(part: Part, [key, ...rest]: readonly string[], value: unknown): Part {
  if (key === undefined) return part;
  const { [key]: before, ...others } = part;
  const after = rest.length === 0 ? value : set((before ?? {}) as Part, rest, value);
  const isGone = after === undefined || (rest.length > 0 && Object.keys(after as Part).length === 0);
  return isGone ? others : { ...part, [key]: after };
}

/** The value at a path; undefined where there is none. */
export const settingAt = (content: object, path: readonly string[]): unknown =>
  path.reduce<unknown>((part, key) => (part as Part | undefined)?.[key], content);
