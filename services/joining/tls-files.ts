/** A certificate and its key from files, looked at again and again: a renewed one is taken without a restart. */
import { createPrivateKey, X509Certificate } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { createSecureContext } from 'node:tls';
import { SandlarderError } from '../core/errors.js';
import { notReadBecause } from '../core/model/file-words.js';
import type { Log } from '../log.js';

export interface TlsPair {
  readonly cert: string;
  readonly key: string;
}

export interface TlsFiles {
  readonly pair: TlsPair;
  /** Called with every pair that is new. */
  onNew(call: (pair: TlsPair) => void): void;
  /** Looks whether the files are others by now. */
  look(): void;
}

/**
 * @param files paths, PEM
 * @throws SandlarderError LISTEN_REFUSED where they cannot be read or do not belong together
 */
export function openTls(files: TlsPair, log: Log): TlsFiles {
  const calls: ((pair: TlsPair) => void)[] = [];
  let seen = stampOf(files);
  const pair = read(files);
  return {
    pair,
    onNew: (call) => calls.push(call),
    look: () => {
      try {
        const stamp = stampOf(files);
        if (stamp === seen) return;
        const next = read(files);
        for (const call of calls) call(next);
        seen = stamp;
        log(`TLS: the certificate ${files.cert} was renewed, and is taken from now on`);
      } catch (error) {
        // One file may be written before the other: what is in use stays until both fit.
        log(`${(error as Error).message}; the one before stays in use`, 'tls');
      }
    },
  };
}

function read({ cert, key }: TlsPair): TlsPair {
  try {
    const pair = { cert: readFileSync(cert, 'utf8'), key: readFileSync(key, 'utf8') };
    requireFitting(pair);
    return pair;
  } catch (error) {
    throw new SandlarderError(
      'LISTEN_REFUSED',
      `TLS: expected a certificate in ${cert} and its key in ${key}, PEM, got ${notReadBecause(error)}`,
      { cause: error },
    );
  }
}

/** A file that is just being written is empty, which a secure context alone would take for none. */
function requireFitting(pair: TlsPair): void {
  if (!new X509Certificate(pair.cert).checkPrivateKey(createPrivateKey(pair.key)))
    throw new Error('the key of another certificate');
  createSecureContext(pair);
}

function stampOf({ cert, key }: TlsPair): string {
  return [cert, key]
    .map((file) => {
      const at = statSync(file, { throwIfNoEntry: false });
      return at ? `${at.ino} ${at.mtimeMs} ${at.size}` : 'none';
    })
    .join(' ');
}
