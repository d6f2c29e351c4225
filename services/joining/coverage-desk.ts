/** Answers what beds' probes would find, in a thread. */
import { answerOf, type CoverageAnswer, type CoverageTask } from '../core/watch/coverage/index.js';
import { ThreadDesk } from './thread-desk.js';

const COVERAGE = {
  name: 'coverage',
  worker: new URL('./coverage-worker.js', import.meta.url),
  answerOf,
  /** Up to 100 KB each. */
  kept: 32,
  openMost: 5,
} as const;

export class CoverageDesk extends ThreadDesk<CoverageTask, CoverageAnswer> {
  constructor(answering?: (task: CoverageTask) => Promise<CoverageAnswer>) {
    super(COVERAGE, answering);
  }
}
