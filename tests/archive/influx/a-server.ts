/** An HTTP server that answers writes as a test says, and keeps the lines that it said yes to. */
import { once } from 'node:events';
import { createServer, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { onTestFinished } from 'vitest';
import { parseInfluxUrl } from '../../../services/archive/influx/address.js';
import { InfluxConnection } from '../../../services/archive/influx/connection.js';

export type Answer = (lines: string, response: ServerResponse) => void;

export const yes: Answer = (_, response) => void response.writeHead(204).end();

export const says =
  (status: number, body: unknown): Answer =>
  (_, response) =>
    void response.writeHead(status).end(typeof body === 'string' ? body : JSON.stringify(body));

/** Refuses a request that holds a line with the text, as an InfluxDB refuses another type of a field. */
export const refusing =
  (text: string): Answer =>
  (lines, response) =>
    lines.includes(text)
      ? says(400, { error: 'partial write: field type conflict: dropped=1' })(lines, response)
      : yes(lines, response);

export async function aServer(first: Answer = yes) {
  let answer = first;
  const kept: string[] = [];
  const asked: { authorization: string | undefined; url: string | undefined; lines: string }[] = [];
  const server = createServer(async (request, response) => {
    let lines = '';
    for await (const chunk of request) lines += chunk;
    asked.push({ authorization: request.headers.authorization, url: request.url, lines });
    answer(lines, response);
    if (response.statusCode === 204) kept.push(...lines.split('\n'));
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  onTestFinished(() => {
    server.closeAllConnections();
    server.close();
  });
  return {
    kept,
    asked,
    answers: (next: Answer) => {
      answer = next;
    },
    connect: (limit_ms = 5_000, credentials?: { user: string; password: string }) => {
      const address = parseInfluxUrl(`http://127.0.0.1:${port}/sand`, credentials);
      const connection = new InfluxConnection(address, limit_ms);
      onTestFinished(() => connection.close());
      return connection;
    },
  };
}
