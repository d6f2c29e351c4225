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
import type { DeliveryReport } from './delivery-reports.js';

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
  /** What the network says became of a short message that it had taken. */
  readonly onReport: (report: DeliveryReport) => void;
}

export function openWays(settings: ServeSettings, { log, onSms, onReport }: WayHandlers): Ways {
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
        onDelivered: (key, _at, ok) => onReport({ key, ok }),
        onState: (now) => {
          if (now.state !== status?.state) log(`modem ${modem.path}: ${inWords(now)}`, `modem ${now.state}`);
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
    problems: () => (status ? modemProblems(status) : []),
    close: async () => sms?.close(),
  };
}

/** Below it messages fail now and then. Judgement: the lowest four of the 32 steps of [3GPP TS 27.007 8.5]. */
const WEAK_dBm = -107;

const inWords = ({ state, signal_dBm, note }: ModemStatus): string =>
  [state, ...(signal_dBm === undefined ? [] : [`signal ${signal_dBm} dBm`]), ...(note ? [note] : [])].join(
    ', ',
  );

function modemProblems(status: ModemStatus): string[] {
  if (status.state !== 'registered') return [`the modem cannot send messages: ${inWords(status)}`];
  const { signal_dBm = 0 } = status;
  return signal_dBm <= WEAK_dBm ? [`the modem hears the network badly: signal ${signal_dBm} dBm`] : [];
}
