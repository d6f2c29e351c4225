/** A web server on the loopback that answers as a test tells it. */
import { once } from 'node:events';
import { createServer, type IncomingHttpHeaders, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

export interface Request {
  readonly method: string | undefined;
  readonly path: string | undefined;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

export type Answer = (response: ServerResponse, request: Request) => void;

export const withStatus =
  (status: number, body = '', headers: Record<string, string> = {}): Answer =>
  (response) => {
    response.writeHead(status, headers).end(body);
  };

export class Receiver {
  readonly requests: Request[] = [];
  /** One for each request in turn; the last one stays. */
  answers: Answer[] = [withStatus(204)];
  readonly #server: Server;

  private constructor(server: Server) {
    this.#server = server;
    server.on('request', async (request, response) => {
      const chunks: Buffer[] = [];
      for await (const chunk of request) chunks.push(chunk);
      const { method, url: path, headers } = request;
      const taken = { method, path, headers, body: Buffer.concat(chunks).toString() };
      this.requests.push(taken);
      const answer = this.answers.length > 1 ? this.answers.shift() : this.answers[0];
      answer?.(response, taken);
      server.emit('taken');
    });
  }

  static async start(): Promise<Receiver> {
    const server = createServer();
    const receiver = new Receiver(server);
    server.listen(0, '127.0.0.1');
    await once(server, 'listening');
    return receiver;
  }

  get origin(): string {
    return `http://127.0.0.1:${(this.#server.address() as AddressInfo).port}`;
  }

  /** Resolves when the next request was taken in whole. */
  async taken(): Promise<void> {
    await once(this.#server, 'taken');
  }

  async stop(): Promise<void> {
    this.#server.closeAllConnections();
    this.#server.close();
    await once(this.#server, 'close');
  }
}
