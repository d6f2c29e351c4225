/** The watch that is evaluated: the one that the service runs. */
export { sandWatch as WATCH } from '../../core/watch/sand-watch.js';
