export { BACKOFF, type Backoff } from './backoff.js';
export { type ConsoleOptions, createConsole } from './console.js';
export { DeliveryError, type DeliveryErrorOptions } from './delivery-error.js';
export { LAMP_LIMITS, Lamp, type LampLimits, type LampOptions, type Publication } from './lamp.js';
export {
  type OutboxEvent,
  OutboxRunner,
  RUNNER_LIMITS,
  type RunnerLimits,
  type RunnerOptions,
} from './outbox-runner.js';
export type { Outbox, OutboxMessage, Timer, Way } from './ports.js';
export { PATIENCE, type Patience } from './verdict.js';
export { wallTimer } from './wall-timer.js';
export { createWebhook, WEBHOOK_LIMITS, type WebhookLimits } from './webhook.js';
