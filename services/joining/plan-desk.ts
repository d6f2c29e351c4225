/** Plans beds, in a thread: placing probes takes some seconds. */
import { type Plan, type PlanQuestion, planBed } from '../core/keeping/index.js';
import { ThreadDesk } from './thread-desk.js';

export const PLANNING = {
  name: 'plan',
  worker: new URL('./plan-worker.js', import.meta.url),
  answerOf: (question: PlanQuestion): Plan => planBed(question),
  /** Up to 20 KB each. */
  kept: 16,
  openMost: 3,
} as const;

export class PlanDesk extends ThreadDesk<PlanQuestion, Plan> {
  constructor(answering?: (question: PlanQuestion) => Promise<Plan>) {
    super(PLANNING, answering);
  }
}
