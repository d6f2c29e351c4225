/** A mail server on the loopback that takes, refuses or drops what comes, as a test tells it. */
import { once } from 'node:events';
import type { AddressInfo, Socket } from 'node:net';
import { SMTPServer, type SMTPServerOptions } from 'smtp-server';
import { type Certificate, selfSigned } from './self-signed.js';

export interface Letter {
  readonly from: string;
  readonly to: readonly string[];
  readonly raw: string;
  readonly tls: boolean;
  readonly user: string | undefined;
}

export interface Behaviour {
  readonly secure?: boolean;
  readonly certificate?: Certificate;
  /** Asks for this password of the user `alarms`. */
  readonly password?: string;
  readonly offerTls?: boolean;
  readonly offerLogin?: boolean;
  /** A reply to the sender, the recipient or the message other than yes. */
  readonly onSender?: readonly [status: number, text: string];
  readonly onRecipient?: readonly [status: number, text: string];
  readonly onMessage?: readonly [status: number, text: string];
  /** Closes the connection once so much of the message has come. */
  readonly dropInMessage?: boolean;
  /** Says nothing more after the greeting of the client. */
  readonly silent?: 'greeting' | 'message';
  readonly port?: number;
}

const reply = ([status, text]: readonly [number, string]): Error =>
  Object.assign(new Error(text), { responseCode: status });

export class MailServer {
  readonly letters: Letter[] = [];
  readonly certificate: Certificate;
  readonly #server: SMTPServer;
  readonly #sockets = new Set<Socket>();

  private constructor(behaviour: Behaviour) {
    this.certificate = behaviour.certificate ?? selfSigned();
    this.#server = new SMTPServer({ ...this.#options(behaviour), ...this.certificate });
    // A client that does not trust the certificate, or that is dropped, is an error here.
    this.#server.on('error', () => undefined);
    this.#server.server.on('connection', (socket) => {
      this.#sockets.add(socket);
      socket.on('close', () => this.#sockets.delete(socket));
    });
  }

  static async start(behaviour: Behaviour = {}): Promise<MailServer> {
    const server = new MailServer(behaviour);
    server.#server.listen(behaviour.port ?? 0, '127.0.0.1');
    await once(server.#server.server, 'listening');
    return server;
  }

  #options(behaviour: Behaviour): SMTPServerOptions {
    const { secure = false, password, offerTls = true, offerLogin = true } = behaviour;
    const answer = (no: readonly [number, string] | undefined, done: (error?: Error | null) => void): void =>
      done(no && reply(no));
    return {
      secure,
      disabledCommands: [...(offerTls ? [] : ['STARTTLS']), ...(offerLogin ? [] : ['AUTH'])],
      authOptional: password === undefined,
      allowInsecureAuth: true,
      disableReverseLookup: true,
      closeTimeout: 100,
      onConnect: (_session, done) => (behaviour.silent === 'greeting' ? undefined : done()),
      onAuth: (auth, _session, done) =>
        auth.username === 'alarms' && auth.password === password
          ? done(null, { user: auth.username })
          : done(reply([535, `5.7.8 no, not with ${auth.password}`])),
      onMailFrom: (_address, _session, done) => answer(behaviour.onSender, done),
      onRcptTo: (_address, _session, done) => answer(behaviour.onRecipient, done),
      onData: (stream, session, done) => {
        const chunks: Buffer[] = [];
        stream.on('data', (chunk: Buffer) => {
          chunks.push(chunk);
          if (behaviour.dropInMessage) this.#drop();
        });
        stream.on('end', () => {
          if (behaviour.silent === 'message') return;
          const { mailFrom, rcptTo } = session.envelope;
          if (!behaviour.onMessage)
            this.letters.push({
              from: mailFrom ? mailFrom.address : '',
              to: rcptTo.map(({ address }) => address),
              raw: Buffer.concat(chunks).toString(),
              tls: session.secure,
              user: typeof session.user === 'string' ? session.user : undefined,
            });
          answer(behaviour.onMessage, done);
        });
      },
    };
  }

  #drop(): void {
    for (const socket of this.#sockets) socket.destroy();
  }

  get port(): number {
    return (this.#server.server.address() as AddressInfo).port;
  }

  async stop(): Promise<void> {
    const closed = new Promise<void>((resolve) => this.#server.close(() => resolve()));
    this.#drop();
    await closed;
  }
}

/** Headers of a letter, unfolded, by their names in lower case; and its text, decoded. */
export function readLetter(raw: string): { headers: Map<string, string[]>; text: string } {
  const end = raw.indexOf('\r\n\r\n');
  const headers = new Map<string, string[]>();
  for (const line of raw
    .slice(0, end)
    .replace(/\r\n[ \t]+/g, ' ')
    .split('\r\n')) {
    const [, name = '', value = ''] = /^([^:]+): ?(.*)$/.exec(line) ?? [];
    headers.set(name.toLowerCase(), [...(headers.get(name.toLowerCase()) ?? []), value]);
  }
  return { headers, text: decodeText(raw.slice(end + 4), headers.get('content-transfer-encoding')?.[0]) };
}

/** RFC 2045 sections 6.7 and 6.8. */
function decodeText(body: string, encoding: string | undefined): string {
  if (encoding === 'base64') return Buffer.from(body, 'base64').toString();
  if (encoding !== 'quoted-printable') return body;
  const bytes = body
    .replace(/=\r\n/g, '')
    .replace(/=([0-9A-F]{2})/g, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)));
  return Buffer.from(bytes, 'latin1').toString();
}

/** RFC 2047, as in the subject: words of B or Q in UTF-8. */
export function decodeWords(value: string): string {
  return value
    .replace(/\?=\s+=\?/g, '?==?')
    .replace(/=\?utf-8\?([BQ])\?(.*?)\?=/gi, (_, kind: string, text: string) =>
      kind.toUpperCase() === 'B'
        ? Buffer.from(text, 'base64').toString()
        : decodeText(text.replaceAll('_', ' '), 'quoted-printable'),
    );
}
