/** A certificate of its own for a test's server on the loopback, made by the openssl program. */
import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';

export interface Certificate {
  /** Paths. */
  readonly certificate: string;
  readonly key: string;
  readonly pem: string;
  dispose(): Promise<void>;
}

export async function selfSigned(): Promise<Certificate> {
  const folder = await mkdtemp(join(tmpdir(), 'certificate-'));
  const [certificate, key] = [join(folder, 'certificate.pem'), join(folder, 'key.pem')];
  const name = ['-subj', '/CN=127.0.0.1', '-addext', 'subjectAltName=IP:127.0.0.1'];
  const form = ['-x509', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:prime256v1', '-nodes', '-days', '2'];
  await promisify(execFile)('openssl', ['req', ...form, ...name, '-keyout', key, '-out', certificate]);
  return {
    certificate,
    key,
    pem: await readFile(certificate, 'utf8'),
    dispose: () => rm(folder, { recursive: true, force: true }),
  };
}
