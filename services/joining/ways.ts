/** The ways by which people can be told here, by what the service was started with. */
import type { Log } from '../log.js';
import {
  createEmail,
  createGateway,
  createSmsModem,
  createWebhook,
  type ModemStatus,
  type ReceivedMessage,
  type Way,
  WEBHOOK_LIMITS,
  wallTimer,
} from '../senders/index.js';
import type { ServeSettings } from '../settings.js';

export interface Ways {
  readonly ways: readonly Way[];
  /** Whether messages can go out this way at all. */
  has(via: string): boolean;
  /** Whether answers come back this way. */
  answers(via: string): boolean;
  /** In words, one for each way that is in trouble now. */
  problems(): string[];
  close(): Promise<void>;
}

export interface WayHandlers {
  readonly log: Log;
  /** Resolves when the message is safe. */
  readonly onSms: (message: ReceivedMessage) => Promise<void>;
}

export function openWays(settings: ServeSettings, { log, onSms }: WayHandlers): Ways {
  const { modem, gateway, mail, webhookSecret } = settings;
  const webhook = createWebhook(
    wallTimer,
    WEBHOOK_LIMITS,
    webhookSecret === undefined ? {} : { secretOf: () => webhookSecret },
  );
  let status: ModemStatus | undefined;
  const sms = modem
    ? createSmsModem({
        ...modem,
        onReceived: onSms,
        onState: (now) => {
          if (now.state !== status?.state) log(`modem ${modem.path}: ${now.state}`, `modem ${now.state}`);
          status = now;
        },
      })
    : undefined;
  const ways: Way[] = [
    webhook,
    ...(sms ? [sms] : []),
    ...(gateway ? [createGateway(gateway, wallTimer)] : []),
    ...(mail ? [createEmail({ ...mail, timer: wallTimer })] : []),
  ];
  const names = new Set(ways.map(({ name }) => name));
  return {
    ways,
    has: (via) => names.has(via),
    answers: (via) => via === 'sms' && (sms !== undefined || gateway?.receive !== undefined),
    problems: () =>
      status && status.state !== 'registered' ? [`the modem cannot send messages: ${status.state}`] : [],
    close: async () => sms?.close(),
  };
}
