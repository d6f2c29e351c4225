export { BACKOFF, type Backoff } from './backoff.js';
export { type ConsoleOptions, createConsole } from './console.js';
export { DeliveryError, type DeliveryErrorOptions } from './delivery-error.js';
export { createEmail, type EmailOptions } from './email.js';
export { createGateway } from './gateway.js';
export { readGatewayMessage } from './gateway-receive.js';
export { type GatewaySettings, readGatewaySettings } from './gateway-settings.js';
export { createSmsModem, type ModemStatus, type ReceivedMessage } from './gsm/index.js';
export { LAMP_LIMITS, Lamp, type LampLimits, type LampOptions, type Publication } from './lamp.js';
export {
  type OutboxEvent,
  OutboxRunner,
  RUNNER_LIMITS,
  type RunnerLimits,
  type RunnerOptions,
} from './outbox-runner.js';
export type { Outbox, OutboxMessage, Timer, Way } from './ports.js';
export { secretProblem } from './signature.js';
export { PATIENCE, type Patience } from './verdict.js';
export { wallTimer } from './wall-timer.js';
export { createWebhook, WEBHOOK_LIMITS, type WebhookLimits } from './webhook.js';
