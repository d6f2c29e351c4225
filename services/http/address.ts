/** Addresses to listen on, and which of them only this machine can reach. */
import { BlockList, isIP, isIPv6 } from 'node:net';
import { SandlarderError } from '../core/errors.js';

export interface ListenAddress {
  /** A name or an IP address, without brackets. */
  readonly host: string;
  /** 0 for any that is free. */
  readonly port: number;
}

const HOST_PORT = /^(?:\[([0-9A-Fa-f:.]+)\]|([A-Za-z0-9.-]+)):(\d{1,5})$/;

/** RFC 1122 3.2.1.3 and RFC 4291 2.5.3. */
const loopback = new BlockList();
loopback.addSubnet('127.0.0.0', 8, 'ipv4');
loopback.addAddress('::1', 'ipv6');

/**
 * Reads `HOST:PORT`; an IPv6 address stands in brackets: `[::1]:8080`.
 *
 * @throws SandlarderError WRONG_USAGE
 */
export function parseListenAddress(text: string): ListenAddress {
  const [, bracketed, plain, digits] = HOST_PORT.exec(text) ?? [];
  const host = bracketed ?? plain;
  const port = Number(digits);
  if (!(host !== undefined && (bracketed === undefined || isIPv6(bracketed)) && port <= 65_535))
    throw new SandlarderError(
      'WRONG_USAGE',
      `address to listen on must be HOST:PORT such as 127.0.0.1:8080 or [::1]:8080, got ${JSON.stringify(text)}`,
    );
  return { host, port };
}

/** `127.0.0.1:8080`, `[::1]:8080`. */
export function formatAddress({ host, port }: ListenAddress): string {
  return isIPv6(host) ? `[${host}]:${port}` : `${host}:${port}`;
}

/** Whether a name or IP address means this machine and no other: `localhost` [RFC 6761 6.3], 127.0.0.0/8, ::1. */
export function isLoopback(host: string): boolean {
  const family = isIP(host);
  if (family === 0) return host.toLowerCase() === 'localhost';
  return loopback.check(host, family === 4 ? 'ipv4' : 'ipv6');
}

/** The name or address of a `Host` header, without brackets and port [RFC 9110 7.2]; undefined where it is none. */
export function hostOfHeader(header: string | undefined): string | undefined {
  const [, bracketed, plain] =
    /^(?:\[([0-9A-Fa-f:.]+)\]|([^\s:[\]/]+))(?::\d{1,5})?$/.exec(header ?? '') ?? [];
  return bracketed ?? plain;
}
