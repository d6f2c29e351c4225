/** Lines of a table's text are no longer than its rows. */
const WIDTH = 100;

/** Breaks a sentence at its blanks; the lines behind the first are indented. A longer word keeps its length. */
export function wrap(text: string, indent = ''): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last === undefined) lines.push(word);
    else if (`${last} ${word}`.length <= WIDTH) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(`${indent}${word}`);
  }
  return lines;
}
