/**
 * Lets clients into the built-in broker, and holds each to what it may say and hear.
 *
 * What is refused is told to the client as far as MQTT can: a connection by its return code [MQTT-3.2.2.3], a subscription
 * by 0x80 in its SUBACK [MQTT-3.9.3]. A publish ends the connection and is never acknowledged: 3.1.1 knows no other way to
 * say no than to take the message and drop it [MQTT-3.3.5-2], and then a probe would forget what nobody kept.
 */
import type { AuthenticateError, Client, ConnectPacket, Subscription } from 'aedes';
import { SandlarderError } from '../core/errors.js';
import { mayHear, maySay } from '../core/model/device.js';
import { ANY_SPEAKER, type Authenticate, type Speaker } from './credentials.js';
import { clip } from './sentence.js';

export const REFUSALS = ['connect', 'publish', 'subscribe'] as const;
/** What was refused: the list is closed, as these are labels of a counter. */
export type Refusal = (typeof REFUSALS)[number];

export type OnRefused = (what: Refusal, sentence: string) => void;

/** CONNACK return codes [MQTT-3.2.2.3]. */
const SERVER_UNAVAILABLE = 3;
const BAD_USER_OR_PASSWORD = 4;
const NOT_AUTHORISED = 5;

const VERSION_3_1_1 = 4;

type Refused = AuthenticateError & SandlarderError;

export class Door {
  readonly #authenticate: Authenticate;
  readonly #onRefused: OnRefused;
  readonly #wills = new WeakMap<Client, string>();
  readonly #speakers = new WeakMap<Client, Speaker>();

  /** @param authenticate without it everyone may connect */
  constructor(authenticate: Authenticate = () => ANY_SPEAKER, onRefused: OnRefused = () => undefined) {
    this.#authenticate = authenticate;
    this.#onRefused = onRefused;
  }

  /** Before it is known who connects. */
  knock(client: Client, packet: ConnectPacket): void {
    // No session outlives its connection: one would gather messages in memory for a client that never returns.
    packet.clean = true;
    // A client ends the one of the same id [MQTT-3.1.4-2]: no user ends that of another.
    if (packet.username && packet.clientId && packet.protocolVersion === VERSION_3_1_1)
      packet.clientId = `${packet.username} ${packet.clientId}`;
    if (packet.will) this.#wills.set(client, packet.will.topic);
  }

  enter(
    client: Client,
    user: string | undefined,
    password: Uint8Array | undefined,
    done: (error: AuthenticateError | null, success: boolean | null) => void,
  ): void {
    try {
      const problem = this.#entryProblem(client, user, password);
      done(problem ?? null, problem === undefined ? true : null);
    } catch (error) {
      // What is kept of secrets cannot be read: that ends one connection, and not the process.
      const message = `nobody can be let in: ${(error as Error).message}`;
      const unavailable = new SandlarderError('STORE_UNAVAILABLE', message, { cause: error });
      done(Object.assign(unavailable, { returnCode: SERVER_UNAVAILABLE }), null);
    }
  }

  /** Why a client may not come in; undefined where it is in. */
  #entryProblem(
    client: Client,
    user: string | undefined,
    password: Uint8Array | undefined,
  ): Refused | undefined {
    const speaker = this.#authenticate(user, password);
    if (speaker === undefined) {
      const who = user === undefined ? 'a client without a user name' : `a client as ${clip(user)}`;
      const sentence = `refused to connect ${who}: expected a known user with its password or secret, got another`;
      return this.#refused('connect', 'UNAUTHORISED', sentence, BAD_USER_OR_PASSWORD);
    }
    const will = this.#wills.get(client);
    if (will !== undefined && !isSaid(speaker, will)) {
      const sentence = `refused to connect ${speaker.name}: expected a will on a topic of its own, got ${clip(will)}`;
      return this.#refused('connect', 'FORBIDDEN', sentence, NOT_AUTHORISED);
    }
    this.#speakers.set(client, speaker);
    return undefined;
  }

  /** Why a client may not publish there; undefined where it may. */
  publishProblem(client: Client | null, topic: string): SandlarderError | undefined {
    const speaker = client === null ? ANY_SPEAKER : this.speakerOf(client);
    if (isSaid(speaker, topic)) return undefined;
    const sentence = `refused a message of ${speaker.name}, and ended its connection: expected one of its own topics, got ${clip(topic)}`;
    return this.#refused('publish', 'FORBIDDEN', sentence, NOT_AUTHORISED);
  }

  /** Refuses one filter of several by itself. */
  subscribe(
    client: Client,
    subscription: Subscription,
    done: (error: Error | null, subscription?: Subscription | null) => void,
  ): void {
    const { device, name } = this.speakerOf(client);
    if (device === undefined || mayHear(device, subscription.topic)) {
      done(null, subscription);
      return;
    }
    const sentence = `refused a subscription of ${name}: expected what the contract gives it, got ${clip(subscription.topic)}`;
    this.#onRefused('subscribe', sentence);
    done(null, null);
  }

  /** As whom a client was let in. */
  speakerOf(client: Client): Speaker {
    return this.#speakers.get(client) ?? NOBODY;
  }

  #refused(what: Refusal, code: 'UNAUTHORISED' | 'FORBIDDEN', sentence: string, returnCode: number): Refused {
    this.#onRefused(what, sentence);
    return Object.assign(new SandlarderError(code, sentence), { returnCode });
  }
}

/** Whoever was not let in says and hears nothing. */
const NOBODY: Speaker = { name: 'nobody', device: { kind: 'lamp', site: '', id: '' } };

const isSaid = ({ device }: Speaker, topic: string): boolean => device === undefined || maySay(device, topic);

/** Whether it was told already, by what was refused. */
export const isRefusal = (error: unknown): boolean =>
  error instanceof SandlarderError && (error.code === 'UNAUTHORISED' || error.code === 'FORBIDDEN');
