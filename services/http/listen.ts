/** Opens the service to requests: to this machine only, unless passwords travel safely or somebody chose otherwise. */
import type { FastifyInstance } from 'fastify';
import { SandlarderError } from '../core/errors.js';
import { formatAddress, isLoopback, type ListenAddress } from './address.js';

/**
 * Refuses an address that other machines can reach where passwords would travel to it in the clear unasked.
 *
 * @throws SandlarderError LISTEN_REFUSED
 */
export function requirePermitted(address: ListenAddress, mayListenWider: boolean): void {
  if (isLoopback(address.host) || mayListenWider) return;
  throw new SandlarderError(
    'LISTEN_REFUSED',
    `refused to listen on ${formatAddress(address)}, which other machines can reach, while passwords would travel in the clear: give --tls-cert and --tls-key, or say --behind-proxy where something in front of it speaks TLS, or --plain-passwords on a network of your own`,
  );
}

/**
 * Listens.
 *
 * @returns where it listens, such as `http://127.0.0.1:8080`, with the port that was found for port 0
 * @throws SandlarderError LISTEN_REFUSED also where the address is taken or is not of this machine
 */
export async function listen(app: FastifyInstance, address: ListenAddress): Promise<string> {
  requirePermitted(address, app.mayListenWider);
  try {
    await app.listen({ host: address.host, port: address.port });
  } catch (cause) {
    const reason = cause instanceof Error ? cause.message : String(cause);
    throw new SandlarderError('LISTEN_REFUSED', `cannot listen on ${formatAddress(address)}: ${reason}`, {
      cause,
    });
  }
  const bound = app.server.address();
  const port = typeof bound === 'object' && bound !== null ? bound.port : address.port;
  const scheme = 'setSecureContext' in app.server ? 'https' : 'http';
  return `${scheme}://${formatAddress({ host: address.host, port })}`;
}
