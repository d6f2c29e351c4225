import { PassThrough } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { Terminal } from '../../services/commands/terminal.js';

function open() {
  const [input, output] = [new PassThrough(), new PassThrough()];
  let written = '';
  output.on('data', (chunk: Buffer) => {
    written += chunk.toString();
  });
  return { input, terminal: new Terminal(input, output), written: () => written };
}

const noAnswer = expect.objectContaining({
  code: 'WRONG_USAGE',
  message: expect.stringContaining('nothing was kept'),
});

describe('questions at a terminal', () => {
  test('are put one after the other, and answered by the next line', async () => {
    const { input, terminal, written } = open();
    const first = terminal.ask('Who? ');
    input.write('Wanja\n');
    expect(await first).toBe('Wanja');
    const second = terminal.ask('How many? ');
    input.write('40\n');
    expect(await second).toBe('40');
    expect(written()).toBe('Who? How many? ');
  });

  test('are answered by what was pasted at once, in order, empty lines too', async () => {
    const { input, terminal } = open();
    const first = terminal.ask('a ');
    input.write('1\n\n3\n');
    expect([await first, await terminal.ask('b '), await terminal.ask('c ')]).toEqual(['1', '', '3']);
  });

  test('fail where the input ends, also those that are put after it', async () => {
    const { input, terminal } = open();
    const asked = terminal.ask('a ');
    input.end();
    await expect(asked).rejects.toEqual(noAnswer);
    await expect(terminal.ask('b ')).rejects.toEqual(noAnswer);
  });
});
