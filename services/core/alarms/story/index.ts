/** One alarm opened: why it was raised, what to do, and what became of it. The only door to this folder. */
export type { EvidenceQuantity } from './evidence-table.js';
export type { HeldAgainst, Overrides } from './held-against.js';
export { type HistoryEvent, type HistoryParts, historyOf } from './history.js';
export { stepsOf } from './steps.js';
export type { TodoStep } from './todo-step.js';
export { probeOf, type WhyItem, whyOf } from './why.js';
