/** Stands before the service and hands everything on; of the worker it can give a later version. */
import { once } from 'node:events';
import { createServer, request } from 'node:http';
import { onTestFinished } from 'vitest';

export async function proxyTo(service: string) {
  const state = { isNewer: false };
  const server = createServer((asked, answer) => {
    const { hostname, port } = new URL(service);
    const { method, url: path = '', headers } = asked;
    // Whole and uncompressed, so that its text can be another.
    const { 'if-none-match': _match, 'if-modified-since': _since, ...sent } = headers;
    sent['accept-encoding'] = 'identity';
    const onward = request({ hostname, port, method, path, headers: sent }, (given) => {
      const isWorker = path === '/worker.js' && state.isNewer;
      const { 'content-length': _length, etag: _tag, ...others } = given.headers;
      answer.writeHead(given.statusCode ?? 502, isWorker ? others : given.headers);
      if (isWorker) given.on('data', (part) => answer.write(part)).on('end', () => answer.end(';"newer"'));
      else given.pipe(answer);
    });
    onward.on('error', () => answer.destroy());
    answer.on('close', () => onward.destroy());
    asked.pipe(onward);
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  onTestFinished(() => {
    server.closeAllConnections();
    server.close();
  });
  const { port } = server.address() as { port: number };
  return { url: `http://127.0.0.1:${port}`, state };
}
