/** Links by which a person answers: signed, for one message to one person, for a time, and once for each of its alarms. */
import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto';
import { SandlarderError } from '../core/errors.js';
import { DAY_ms, formatTime } from '../core/model/time.js';
import type { Registry } from '../registry/index.js';

/** For how long a link can be used: judgement, as long as an alarm is repeated. */
const LASTS_ms = 7 * DAY_ms;

export interface Link {
  readonly id: string;
  /** The gravest that the message told of. */
  readonly alarm: string;
  readonly person: string;
  readonly until: number;
  /** Key of the message, where it told of more than one alarm. */
  readonly message: string | undefined;
}

type Parts = [id: string, alarm: string, person: string, until: number, message?: string];

const refuse = (reason: string): never => {
  throw new SandlarderError('NOT_FOUND', `link: ${reason}`);
};

export class AnswerLinks {
  readonly #secret: Buffer;
  readonly #base: string;
  /** Wall clock, ms. */
  readonly #now: () => number;

  /** @param base address at which people reach the service: `https://store.example` */
  constructor(registry: Registry, base: string, now: () => number) {
    const kept = registry.own.getOrMake('answer-link-secret', () => randomBytes(32).toString('base64'));
    this.#secret = Buffer.from(kept, 'base64');
    this.#base = base.replace(/\/$/, '');
    this.#now = now;
  }

  /** @param message key of the message that told of this alarm and others */
  make(alarm: string, person: string, message?: string): string {
    const until = this.#now() + LASTS_ms;
    const parts = [randomBytes(9).toString('base64url'), alarm, person, until];
    const content = Buffer.from(JSON.stringify(message === undefined ? parts : [...parts, message]));
    return `${this.#base}/answer?t=${content.toString('base64url')}.${this.#sign(content).toString('base64url')}`;
  }

  /** @throws SandlarderError NOT_FOUND for one that was not made here, or whose time is over */
  read(token: string): Link {
    const [content = '', signature = '', ...rest] = token.split('.');
    const bytes = Buffer.from(content, 'base64url');
    const given = Buffer.from(signature, 'base64url');
    const own = this.#sign(bytes);
    if (rest.length > 0 || given.length !== own.length || !timingSafeEqual(given, own))
      refuse('expected one that this service has sent, got another');
    const [id, alarm, person, until, message] = JSON.parse(bytes.toString()) as Parts;
    if (!(this.#now() < until)) refuse(`expected one that still holds, got one until ${formatTime(until)}`);
    return { id, alarm, person, until, message };
  }

  #sign(content: Buffer): Buffer {
    return createHmac('sha256', this.#secret).update(content).digest();
  }
}
