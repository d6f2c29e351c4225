// Preloaded into a service (`node --import`): its wall clock is ahead by what a file says, in ms. SIGUSR2 has it read again.
import { readFileSync } from 'node:fs';

const file = process.env.SANDLARDER_TEST_CLOCK;
const now = Date.now;
let ahead_ms = 0;
const read = () => {
  ahead_ms = Number(readFileSync(file, 'utf8'));
};
read();
process.on('SIGUSR2', read);
Date.now = () => now() + ahead_ms;
