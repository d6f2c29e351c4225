/** Tells people by short message, over a modem of the station's own. */
import { z } from 'zod';
import { SandlarderError } from '../../core/errors.js';
import { DeliveryError } from '../delivery-error.js';
import type { OutboxMessage, Timer, Way } from '../ports.js';
import { reasonOf } from '../verdict.js';
import { wallTimer } from '../wall-timer.js';
import { isLasting } from './at-error.js';
import { DeliveryWatch, type Watched } from './delivery-watch.js';
import type { ReceivedMessage } from './inbox.js';
import { Modem, type ModemOptions } from './modem.js';
import { numberProblem } from './number.js';
import type { StatusReport } from './pdu-status-report.js';
import { openSerialPort, type PortSettings } from './port.js';
import { type Part, splitIntoParts } from './segments.js';
import type { ModemLog, ModemStatus } from './status.js';

export interface SmsModemOptions extends PortSettings {
  /** 4 to 8 digits. */
  readonly pin?: string | undefined;
  /** Resolves when the message is safe: only then is it removed from the modem. */
  readonly onReceived: (message: ReceivedMessage) => Promise<void>;
  readonly onState: (status: ModemStatus) => void;
  /**
   * The network says what became of a message: all its parts have reached the receiver, or one will not. Not every
   * network says so, and not after a restart of this program.
   */
  readonly onDelivered?: (key: string, atMs: number, ok: boolean) => void;
  readonly log?: ModemLog;
  readonly timer?: Timer;
  /** In [0, 1), as Math.random. */
  readonly random?: () => number;
  readonly open?: ModemOptions['open'];
  readonly limits?: ModemOptions['limits'];
}

export interface SmsModem extends Way {
  readonly status: ModemStatus;
  close(): Promise<void>;
}

/** What a short message needs of a message's body. */
const bodySchema = z.object({ text: z.string().min(1) });

/** Each part costs: a text that is longer is wrong. Own judgement. */
const MOST_PARTS = 10;

/** Messages of which is known how far they have gone: bounds memory. */
const MOST_KNOWN = 500;

/** How far a message has gone. Kept when it has: the outbox may have stopped waiting and send it again. */
interface Progress extends Watched {
  readonly parts: readonly Part[];
  accepted: number;
  /** What sends it now. */
  sending: Promise<void> | undefined;
}

const refuse = (reason: string, cause?: unknown): DeliveryError =>
  new DeliveryError('BAD_REQUEST', `sms: ${reason}`, { permanent: true, cause });

function textOf(message: OutboxMessage): string {
  try {
    return bodySchema.parse(JSON.parse(message.body)).text;
  } catch (error) {
    throw refuse('expected a body with the text of a short message, got another', error);
  }
}

function partsOf(message: OutboxMessage, reference: number): Part[] {
  const problem = numberProblem(message.to);
  if (problem !== undefined) throw refuse(problem);
  const text = textOf(message);
  const parts = text.length <= MOST_PARTS * 160 ? splitIntoParts(text, reference) : undefined;
  if (!(parts && parts.length <= MOST_PARTS))
    throw refuse(`expected a text of at most ${MOST_PARTS} parts, got one of ${text.length} characters`);
  return parts;
}

function deliveryError(error: unknown): DeliveryError {
  if (error instanceof DeliveryError) return error;
  const bad = error instanceof SandlarderError && error.code === 'BAD_REQUEST';
  const permanent = bad || isLasting(error);
  const code = permanent ? 'BAD_REQUEST' : 'RECEIVER_UNAVAILABLE';
  return new DeliveryError(code, `sms: ${reasonOf(error)}`, { permanent, cause: error });
}

class ModemWay implements SmsModem {
  readonly name = 'sms';
  readonly #modem: Modem;
  readonly #watch = new DeliveryWatch();
  readonly #known = new Map<string, Progress>();
  readonly #options: SmsModemOptions;
  readonly #timer: Timer;
  /** Of the next text that has several parts, 0 to 255. */
  #reference: number;

  constructor(options: SmsModemOptions) {
    const { path, baudRate, timer = wallTimer, random = Math.random, log = () => undefined } = options;
    this.#options = options;
    this.#timer = timer;
    this.#reference = Math.floor(random() * 256);
    this.#modem = new Modem({
      open: options.open ?? (() => openSerialPort({ path, baudRate })),
      pin: options.pin,
      timer,
      random,
      log,
      onState: options.onState,
      onReceived: options.onReceived,
      onReport: (report) => this.#reported(report),
      ...(options.limits && { limits: options.limits }),
    });
    this.#modem.start();
  }

  get status(): ModemStatus {
    return this.#modem.status;
  }

  close(): Promise<void> {
    return this.#modem.close();
  }

  /** A message that is still being sent is waited for, one that has gone is not sent again. */
  async send(message: OutboxMessage): Promise<void> {
    const progress = this.#progressOf(message);
    progress.sending ??= this.#sendRest(progress).finally(() => {
      progress.sending = undefined;
    });
    await progress.sending;
  }

  #progressOf(message: OutboxMessage): Progress {
    const known = this.#known.get(message.key);
    if (known) return known;
    const parts = partsOf(message, this.#reference);
    if (parts.length > 1) this.#reference = (this.#reference + 1) & 0xff;
    const { key, to } = message;
    const progress: Progress = { key, to, total: parts.length, parts, accepted: 0, sending: undefined };
    this.#known.set(key, progress);
    for (const [oldest, { sending }] of this.#known) {
      if (this.#known.size <= MOST_KNOWN) break;
      if (!sending) this.#known.delete(oldest);
    }
    return progress;
  }

  async #sendRest(progress: Progress): Promise<void> {
    try {
      for (const part of progress.parts.slice(progress.accepted)) {
        const reference = await this.#modem.send(progress.to, part);
        progress.accepted += 1;
        this.#watch.add(progress, progress.accepted, reference);
      }
    } catch (error) {
      throw deliveryError(error);
    }
  }

  #reported(report: StatusReport): void {
    const settled = this.#watch.report(report);
    if (settled) this.#options.onDelivered?.(settled.key, settled.at ?? this.#timer.now(), settled.ok);
  }
}

/**
 * The way `sms`: `to` is an international number, `body` JSON with the `text` to send. It resolves when the network
 * has accepted all parts. After an interruption it goes on with the part that was interrupted, which may thus come
 * twice. Rejects with a DeliveryError.
 *
 * The port is opened at once and again whenever it is lost, until `close`.
 *
 * @throws SandlarderError WRONG_USAGE for a PIN that is none
 */
export function createSmsModem(options: SmsModemOptions): SmsModem {
  if (options.pin !== undefined && !/^[0-9]{4,8}$/.test(options.pin))
    throw new SandlarderError('WRONG_USAGE', 'expected a PIN of 4 to 8 digits, got something else');
  return new ModemWay(options);
}
