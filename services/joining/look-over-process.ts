/** A process that looks at the pages of one database, and says what it found to whoever started it. */
import { setPriority } from 'node:os';
import { lookedAt } from './look-over.js';

/** Whatever the service does goes first. */
const NICE = 10;

try {
  setPriority(NICE);
} catch {
  // Where a unit forbids it, the look is no less right.
}
process.once('disconnect', () => process.exit());
process.send?.(lookedAt(process.argv[2] ?? ''), () => process.disconnect());
