/** Where a command's lines go. */
export type Say = (line: string) => void;

export const onOutput: Say = (line) => void process.stdout.write(`${line}\n`);
