/** The timer that really waits. */
import type { Timer } from './ports.js';

export const wallTimer: Timer = {
  now: () => Date.now(),
  after(delay_ms, call) {
    const handle = setTimeout(call, delay_ms);
    return () => clearTimeout(handle);
  },
};
